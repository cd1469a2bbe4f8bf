using System.Globalization;
using Sandarac.Analysis.Declaring;
using Sandarac.Imaging.Colour;
using Sandarac.Studio.Record;

namespace Sandarac.Studio;

/// <summary>A layer, or a part of one, as a run of the reading `layers` measured it.</summary>
/// <param name="Number">Counted from 1 at the bottom.</param>
/// <param name="Part">Letter of a sublayer, from a at the layer's bottom; empty for a layer.</param>
/// <param name="InUm">Whether thicknesses are in um; else the micrograph has no scale and they are in pixels.</param>
/// <param name="Mean">Mean thickness and its uncertainty; null where it could not be measured.</param>
/// <param name="Deviation">Standard deviation along the section.</param>
/// <param name="Low">5th percentile; the least thickness where the mean lies below that percentile.</param>
/// <param name="High">95th percentile; the greatest thickness where the mean lies above that percentile.</param>
/// <param name="Range">What the two are, in words.</param>
/// <param name="Coverage">Share of the section's length in which it is there, 0 to 1.</param>
/// <param name="Places">Places measured.</param>
/// <param name="Colour">Its colour in visible light, in words and as "#rrggbb"; the camera's own unless it was calibrated.</param>
/// <param name="Luminescence">The same in ultraviolet; null when there is no such micrograph.</param>
public sealed record MeasuredLayer(int Number, string Part, bool InUm, Figure? Mean, double? Deviation, double? Low, double? High, string Range, double? Coverage, double? Places, SeenColour? Colour, SeenColour? Luminescence)
{
    /// <summary>What it is called on record: "2", "2a".</summary>
    public string Name => $"{Number}{Part}";

    /// <summary>"um" or "px".</summary>
    public string Unit => InUm ? "um" : "px";

    /// <summary>A run's layers from the bottom up; none for a run without an answer.</summary>
    public static IReadOnlyList<MeasuredLayer> Of(Run run) =>
        [.. Enumerable.Range(1, (int)(run.Figures.FirstOrDefault(f => f.Name == "layers")?.Value ?? 0)).Select(number => Of(run, number, ""))];

    /// <summary>The sublayers that a run proposed, from the bottom up.</summary>
    public static IReadOnlyList<MeasuredLayer> Sublayers(Run run) => [.. from figure in run.Figures
                                                                         where figure.Name == "sublayers"
                                                                         let number = int.Parse(figure.Subject!["layer ".Length..], CultureInfo.InvariantCulture)
                                                                         from part in Enumerable.Range(0, (int)(figure.Value ?? 0))
                                                                         select Of(run, number, $"{(char)('a' + part)}")];

    /// <summary>How thick it is, along how much of the section, in one line; in um what <see cref="Low"/> and <see cref="High"/> are, whose values stand beside it, in pixels the values too.</summary>
    public string Thickness() => Mean is not { Value: { } mean } ? "not measured" : string.Create(CultureInfo.InvariantCulture,
        $"mean {With(mean, Mean.Uncertainty)} {Unit}, sd {Deviation:0.0}; {Range}{(InUm ? "" : $" {Low:0.0} to {High:0.0} {Unit}")}; in {100 * Coverage:0} % of the section, n = {Places:0}");

    /// <summary>What is seen of it, in one sentence.</summary>
    public string Seen()
    {
        var seen = $"{Colour?.Words ?? "no colour measured"} in visible light{(Luminescence is null ? "" : $", {Luminescence.Words} in ultraviolet")}";
        return $"{char.ToUpperInvariant(seen[0])}{seen[1..]}.";
    }

    private static MeasuredLayer Of(Run run, int number, string part)
    {
        var figures = run.Figures.Where(f => f.Subject == $"layer {number}{part}").ToDictionary(f => f.Name);
        var unit = figures.ContainsKey("thickness-mean") ? "" : "-px";
        Figure? Thick(string name) => figures.GetValueOrDefault($"thickness-{name}{unit}");
        var (mean, p5, p95) = (Thick("mean"), Thick("p5")?.Value, Thick("p95")?.Value);
        // Where a layer is mostly thin and seldom very thick, its mean may lie outside these percentiles.
        var skewed = mean?.Value < p5 || mean?.Value > p95;
        return new MeasuredLayer(number, part, unit.Length == 0, mean, Thick("sd")?.Value, skewed ? Thick("min")?.Value : p5, skewed ? Thick("max")?.Value : p95,
            skewed ? "least to greatest" : "5th to 95th percentile", figures.GetValueOrDefault("coverage")?.Value / 100, figures.GetValueOrDefault("n")?.Value,
            SeenColour.Of(figures, ""), SeenColour.Of(figures, "luminescence-"));
    }

    private static string With(double value, double? uncertainty) => Rounding.Rounded(value, uncertainty) is var (text, spread) && spread is not null ? $"{text} \u00b1 {spread}" : Rounding.Significant(value, 3);
}

/// <summary>A colour that a reading measured.</summary>
/// <param name="Words">"dark moderate blue".</param>
/// <param name="Hex">"#rrggbb", what lies outside sRGB brought to its border.</param>
public sealed record SeenColour(string Words, string Hex)
{
    internal static SeenColour? Of(Dictionary<string, Figure> figures, string prefix)
    {
        double? Value(string name) => figures.GetValueOrDefault(prefix + name)?.Value;
        if (Value("lightness") is not { } lightness) return null;
        var (red, green, blue) = new CieLab(lightness, Value("red-green") ?? 0, Value("yellow-blue") ?? 0).ToLinear();
        static int Byte(double light) => (int)Math.Round(255 * Srgb.ToEncoded(Math.Clamp(light, 0, 1)));
        return new SeenColour(ColourName.FromLinear(red, green, blue)?.ToString() ?? "no colour", $"#{Byte(red):x2}{Byte(green):x2}{Byte(blue):x2}");
    }
}
