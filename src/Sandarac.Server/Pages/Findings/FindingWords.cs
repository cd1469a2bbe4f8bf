using System.Globalization;
using Sandarac.Analysis.Declaring;
using Sandarac.Server.Pages.Shared;
using Sandarac.Studio;
using Sandarac.Studio.Places;
using Sandarac.Studio.Record;

namespace Sandarac.Server.Pages.Findings;

/// <summary>How findings are told on the pages.</summary>
internal static class FindingWords
{
    /// <summary>"certain".</summary>
    public static string Of(Certainty confidence) => confidence.ToString().ToLowerInvariant();

    /// <summary>"12.3 ± 0.8 cm2, 0.58 ± 0.04 % of the painted face; a line of 34 mm; 2 points".</summary>
    public static string Of(FindingPlace place) => string.Join("; ", Parts(place));

    private static IEnumerable<string> Parts(FindingPlace place)
    {
        if (place.Extent is { } extent) yield return $"{Area(extent)}, {Share(extent)} of the painted face";
        if (place.LengthMm > 0) yield return string.Create(CultureInfo.InvariantCulture, $"lines of {place.LengthMm:0.#} mm");
        if (place.Points > 0) yield return PageWords.Count(place.Points, "point");
    }

    /// <summary>"12.3 ± 0.8 cm2": cm2 from 100 mm2 up, the digits that the uncertainty lets stand.</summary>
    public static string Area(ZoneExtent extent)
    {
        var (unit, factor) = extent.AreaMm2 >= 100 ? ("cm2", 0.01) : ("mm2", 1.0);
        return $"{Rounded(factor * extent.AreaMm2, factor * extent.AreaUncertaintyMm2)} {unit}";
    }

    private static string Share(ZoneExtent extent) => $"{Rounded(100 * extent.FaceShare, 100 * extent.FaceShareUncertainty)} %";

    private static string Rounded(double value, double? uncertainty) => Rounding.Rounded(value, uncertainty) switch
    {
        (var v, { } u) => $"{v} \u00B1 {u}",
        var (v, _) => v,
    };
}
