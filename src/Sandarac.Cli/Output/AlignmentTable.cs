using System.Globalization;
using Sandarac.Analysis.Alignment.Pairs;
using Sandarac.Analysis.Declaring;

namespace Sandarac.Cli.Output;

/// <summary>An alignment's result in lines for a person.</summary>
internal static class AlignmentTable
{
    public static string Of(BareAlignmentResult result)
    {
        var verdict = result.Verdict switch { PairVerdict.Aligned => "aligned", PairVerdict.Uncertain => "uncertain", _ => "not aligned" };
        List<string> lines = [$"{verdict}: {result.Reason}"];
        if (result is { Model: { } model, HeldOut: { } held })
        {
            lines.Add($"Model: {ModelNames.Words(model)}.");
            lines.Add($"Held-out patches that agree, px of the reference: median {Px(held.MedianPx)}, mean {Px(held.MeanPx)}, 95 of 100 within {Px(held.P95Px)}, farthest {Px(held.MaxPx)}{Mm(held)}.");
            lines.Add($"A patch agrees within {Px(held.GatePx)} px. Chance alone gives so much agreement with a probability of about 10^{Math.Min(0, result.Log10FalseAlarms):0}.");
            lines.Add($"Standard error of the whole picture's place: {Px(result.StandardErrorPx)} px; single places are less sure.");
        }
        if (result.Lens is { } lens)
            lines.Add(string.Create(CultureInfo.InvariantCulture, $"Lens held at that of {lens.Names}: k1 {lens.Lens.K1:0.00000}, k2 {lens.Lens.K2:0.00000}, centre {lens.Lens.Centre.X:0.0}, {lens.Lens.Centre.Y:0.0} px."));
        lines.AddRange(result.Warnings.Select(w => $"Note: {w.Message}"));
        lines.Add($"Time: {string.Join(", ", result.Stages.Select(s => string.Create(CultureInfo.InvariantCulture, $"{s.Name} {s.Seconds:0.0} s")))}.");
        return string.Join(Environment.NewLine, lines);
    }

    private static string Px(double value) => Rounding.Significant(value, 2);

    private static string Mm(BareHeldOut held) => held is { MedianMm: { } median, P95Mm: { } p95 } ? $" (median {Rounding.Significant(median, 2)} mm, 95 % {Rounding.Significant(p95, 2)} mm)" : "";
}
