using System.Globalization;

namespace Sandarac.Analysis.Declaring;

/// <summary>A line of help: a term and what it means.</summary>
/// <param name="Term">Left column: "--red-gain NUMBER".</param>
/// <param name="Text">Right column.</param>
public sealed record HelpLine(string Term, string Text);

/// <summary>The help of a reading on the command line, as data; whoever prints it decides on columns and colours.</summary>
public static class HelpText
{
    /// <summary>The usage line, with one --image for each image needed.</summary>
    public static string Usage(Declaration d) => $"sandarac read {d.Id} "
        + string.Join(" ", d.Inputs.SelectMany(s => Enumerable.Repeat($"--image {s.Name}=FILE", Math.Max(1, s.Minimum)).Select(i => s.Minimum == 0 ? $"[{i}]" : i)))
        + $"{(d.Parameters.Count > 0 ? " [--PARAMETER VALUE ...]" : "")} --out DIR [--scale-mm-per-px MM] [--json]";

    /// <summary>What goes in.</summary>
    public static IReadOnlyList<HelpLine> Inputs(Declaration d) =>
        [.. d.Inputs.Select(s => new HelpLine(s.Name, $"{s.Help} ({InputCheck.CountText(s)}, {InputCheck.LightText(s)})"))];

    /// <summary>What can be set.</summary>
    public static IReadOnlyList<HelpLine> Parameters(Declaration d) =>
        [.. d.Parameters.Select(p => new HelpLine($"--{p.Name} {p.Type.ToUpper(CultureInfo.InvariantCulture)}", $"{p.Help} {Range(p)}"))];

    /// <summary>What comes out.</summary>
    public static IReadOnlyList<HelpLine> Outputs(Declaration d) =>
    [
        .. d.Rasters.Select(r => new HelpLine($"{r.Name}.tif", $"{r.Title}: {r.BandText}{UnitText(r.Unit)}")),
        .. d.Figures.Select(f => new HelpLine(f.Name, $"{f.Title}{UnitText(f.Unit)}. {f.Meaning}")),
    ];

    /// <summary>"0.1 to 50 mm; default 5 mm."</summary>
    public static string Range(Parameter p) => p is DocumentParameter ? $"{p.RangeText}; none by default." : $"{p.RangeText}; default {p.DefaultText}{(p.Unit is null ? "" : " " + p.Unit)}.";

    private static string UnitText(string unit) => unit == "1" ? "" : $" [{unit}]";
}
