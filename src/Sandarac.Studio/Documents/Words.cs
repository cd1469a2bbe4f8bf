using System.Globalization;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Lights;
using Sandarac.Imaging;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Documents;

/// <summary>How the studio's documents say things.</summary>
public static class Words
{
    /// <summary>"25 November 2026".</summary>
    public static string Date(DateTime utc) => utc.ToString("d MMMM yyyy", CultureInfo.InvariantCulture);

    /// <summary>"25 November 2026, 08:20 UTC".</summary>
    public static string Time(DateTime utc) => utc.ToString("d MMMM yyyy, HH:mm 'UTC'", CultureInfo.InvariantCulture);

    /// <summary>"visible", "raking, lamp at the upper left, 15 degrees above the plane".</summary>
    public static string LightOf(Photograph photograph)
    {
        var name = photograph.Light is { } code ? Light.Find(code)?.Name ?? code : "light unknown";
        var lamp = Lamp(photograph);
        return lamp.Length == 0 ? name : $"{name}, {lamp}";
    }

    /// <summary>Where the lamp stood; empty when nobody said.</summary>
    public static string Lamp(Photograph photograph)
    {
        string[] parts =
        [
            photograph.LightSide is { } side ? $"lamp {Side(side)}" : photograph.AzimuthDeg is { } azimuth ? string.Create(CultureInfo.InvariantCulture, $"lamp at {azimuth:0.#} degrees clockwise from the top") : "",
            photograph.ElevationDeg is { } elevation ? string.Create(CultureInfo.InvariantCulture, $"{elevation:0.#} degrees above the plane") : "",
            photograph.SectionLight is { } under ? $"under {Light.Find(under)?.Name ?? under} light" : "",
        ];
        return string.Join(", ", parts.Where(p => p.Length > 0));
    }

    private static string Side(string compass) => compass switch
    {
        "N" => "at the top",
        "NE" => "at the upper right",
        "E" => "at the right",
        "SE" => "at the lower right",
        "S" => "at the bottom",
        "SW" => "at the lower left",
        "W" => "at the left",
        "NW" => "at the upper left",
        _ => compass,
    };

    /// <summary>"the painting", "paint sample S1".</summary>
    public static string SubjectOf(Photograph photograph) => photograph.Subject switch
    {
        PhotographSubject.Detail => photograph.Plate is { } plate ? string.Create(CultureInfo.InvariantCulture, $"plate {plate}") : "a part of the painting",
        PhotographSubject.Sample => photograph.Sample is { } sample ? $"paint sample {sample}" : "a paint sample",
        PhotographSubject.Chart => "a colour chart or scale",
        PhotographSubject.FlatField => "an even board, to show how the light falls",
        PhotographSubject.DarkFrame => "no light, to show the sensor's own signal",
        _ => "the painting",
    };

    /// <summary>"412 x 518 mm" with height first, as the trade writes sizes.</summary>
    public static string Size(Painting painting) => painting.WidthMm > 0
        ? string.Create(CultureInfo.InvariantCulture, $"{painting.HeightMm:0.#} x {painting.WidthMm:0.#} mm") : "not known";

    /// <summary>How sure a size is: ", give or take 0.3 mm" by its longer side; empty when nobody said.</summary>
    public static string Spread(Painting painting) => painting.SizeUncertainty is { } share
        ? string.Create(CultureInfo.InvariantCulture, $", give or take {share * Math.Max(painting.WidthMm, painting.HeightMm):0.0#} mm") : "";

    /// <summary>What a size or scale rests on.</summary>
    public static string Origin(ScaleOrigin origin) => origin switch
    {
        ScaleOrigin.Measured => "measured on the object",
        ScaleOrigin.Distance => "worked out from one distance that was measured on the object",
        ScaleOrigin.Ruler => "worked out from a ruler in a photograph",
        ScaleOrigin.Metadata => "worked out from a file's resolution tags, which cameras often fill with a default",
        _ => "assumed: nobody measured it, so every length here is only relative",
    };

    /// <summary>"aligned", "uncertain", "not aligned".</summary>
    public static string VerdictOf(Verdict? verdict) => verdict switch
    {
        Verdict.Aligned => "aligned",
        Verdict.Uncertain => "uncertain",
        _ => "not aligned",
    };

    /// <summary>A capital at the beginning, a full stop at the end.</summary>
    public static string Sentence(string text) => text.Length == 0 ? text : char.ToUpperInvariant(text[0]) + text[1..] + (text.EndsWith('.') ? "" : ".");

    /// <summary>"Sandarac 0.1.0 (2e7fd2a)": the version, and the first letters of the source's commit when it is known.</summary>
    public static string Software()
    {
        var parts = Analysis.Declaring.RunRecord.Software.Split('+', 2);
        return parts.Length == 2 ? $"Sandarac {parts[0]} ({parts[1][..Math.Min(7, parts[1].Length)]})" : $"Sandarac {parts[0]}";
    }

    /// <summary>"0.43 mm": a measure of uncertainty itself, which bears two figures.</summary>
    public static string Mm(double mm) => Rounding.Significant(mm, 2) + " mm";
}
