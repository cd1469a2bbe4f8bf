using System.Globalization;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Spectra;
using Sandarac.Analysis.Spectra.Calibration;
using Sandarac.Analysis.Spectra.Elements;
using Sandarac.Materials.Dating;
using Spectre.Console;

namespace Sandarac.Cli.Output;

/// <summary>What a spectrum shows, on standard output.</summary>
internal static class SpectrumTable
{
    public static void Write(SpectrumResult r)
    {
        AnsiConsole.WriteLine($"{r.Title}: {Scale(r.Calibration)}");
        AnsiConsole.WriteLine(string.Create(CultureInfo.InvariantCulture, $"Width at manganese Ka {r.FwhmEv.Value:0} eV ({r.FwhmEv.Origin}); lines excited up to {r.LimitKev.Value:0.0} keV ({r.LimitKev.Origin})."));
        var elements = new Table().Border(TableBorder.Simple).AddColumns("element", "how sure", "counts", "why");
        foreach (var e in r.Elements) elements.AddRow(new[] { e.Element, Words(e.Confidence), e.Confidence == ElementConfidence.CannotBeTold ? "" : With(e.Counts, e.Uncertainty), e.Reason }.Select(t => t.EscapeMarkup()).ToArray());
        SolventOutput.Write(elements);
        var peaks = new Table().Border(TableBorder.Simple).AddColumns("peak, keV", "counts", "significance", "lines");
        foreach (var p in r.Peaks) peaks.AddRow(new[] { With(p.Kev, p.UncertaintyKev), With(p.Counts, p.CountsUncertainty), p.Significance.ToString("0.0", CultureInfo.InvariantCulture), p.Lines.Count == 0 ? "nothing explains it" : string.Join(", ", p.Lines) }.Select(t => t.EscapeMarkup()).ToArray());
        SolventOutput.Write(peaks);
        Pigments(r.Elements);
        foreach (var warning in r.Warnings) AnsiConsole.WriteLine($"Note: {warning.Message}");
        AnsiConsole.WriteLine(SpectrumResult.Caution);
    }

    private static string Words(ElementConfidence confidence) => confidence == ElementConfidence.CannotBeTold ? "cannot be told" : confidence.ToString().ToLowerInvariant();

    private static string Scale(EnergyCalibration c) => string.Create(CultureInfo.InvariantCulture, $"{1000 * c.Scale.KevPerChannel:0.000} eV a channel from {1000 * c.Scale.OffsetKev:0} eV")
        + c.Origin switch { CalibrationOrigin.File => ", the file's", CalibrationOrigin.KnownLines => ", by the lines given", _ => ", proposed from the peaks" }
        + (c.ResidualEv is { } residual ? string.Create(CultureInfo.InvariantCulture, $", held against {c.Lines.Count} lines (root mean square {residual:0} eV).") : ".");

    private static string With(double value, double uncertainty) => Rounding.Rounded(value, uncertainty) is (var v, { } pm) ? $"{v} +- {pm}" : Rounding.Rounded(value, null).Value;

    private static void Pigments(IReadOnlyList<ElementFound> elements)
    {
        var found = ElementRules.Find([.. elements.Where(e => e.Confidence != ElementConfidence.CannotBeTold).Select(e => e.Element)], [.. elements.Where(e => e.Confidence == ElementConfidence.CannotBeTold).Select(e => e.Element)]);
        AnsiConsole.WriteLine(found.NoAnswer ?? "Pigments that these elements are consistent with, those with most of their elements seen first:");
        foreach (var match in found.Candidates) AnsiConsole.WriteLine($"  {match.Entry.Name}: {match.Reason}.");
        foreach (var caution in found.Cautions) Say.Line(caution);
    }
}
