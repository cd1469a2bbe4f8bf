using System.Globalization;
using Sandarac.Analysis.Declaring;
using Sandarac.Studio;
using Sandarac.Studio.Places;
using Sandarac.Studio.Record;
using static Sandarac.Server.Pages.Language.PageText;

namespace Sandarac.Server.Pages.Findings;

/// <summary>How findings are told on the pages.</summary>
internal static class FindingWords
{
    /// <summary>"certain".</summary>
    public static string Of(Certainty confidence) => confidence switch
    {
        Certainty.Certain => Say("certain"),
        Certainty.Probable => Say("probable"),
        _ => Say("possible"),
    };

    /// <summary>Above a kind of things that findings rest on: "Photographs".</summary>
    public static string Of(EvidenceKind kind) => kind switch
    {
        EvidenceKind.Photograph => Say("Photographs"),
        EvidenceKind.Reading => Say("Readings"),
        EvidenceKind.Sample => Say("Samples"),
        EvidenceKind.Finding => Say("Findings"),
        _ => Say("Literature"),
    };

    /// <summary>"12.3 ± 0.8 cm2, 0.58 ± 0.04 % of the painted face; a line of 34 mm; 2 points".</summary>
    public static string Of(FindingPlace place) => string.Join("; ", Parts(place));

    private static IEnumerable<string> Parts(FindingPlace place)
    {
        if (place.Extent is { } extent) yield return Say("{0}, {1} of the painted face", Area(extent), Share(extent));
        if (place.LengthMm > 0) yield return Say("lines of {0} mm", Decimal(place.LengthMm.ToString("0.#", CultureInfo.InvariantCulture)));
        if (place.Points > 0) yield return Counted(place.Points, "{0} point", "{0} points");
    }

    /// <summary>"12.3 ± 0.8 cm2": cm2 from 100 mm2 up, the digits that the uncertainty lets stand.</summary>
    public static string Area(ZoneExtent extent)
    {
        var (unit, factor) = extent.AreaMm2 >= 100 ? ("cm2", 0.01) : ("mm2", 1.0);
        return $"{Rounded(factor * extent.AreaMm2, factor * extent.AreaUncertaintyMm2)} {unit}";
    }

    private static string Share(ZoneExtent extent) => $"{Rounded(100 * extent.FaceShare, 100 * extent.FaceShareUncertainty)} %";

    private static string Rounded(double value, double? uncertainty) => Decimal(Rounding.Rounded(value, uncertainty) switch
    {
        (var v, { } u) => $"{v} \u00B1 {u}",
        var (v, _) => v,
    });
}
