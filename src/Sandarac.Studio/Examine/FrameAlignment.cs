using System.Globalization;
using Sandarac.Imaging.Geometry;
using Sandarac.Studio.Jobs;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Examine;

/// <summary>Photographs that were cropped to the painted face have no surround in which corners could be found; their own border takes the corners' place.</summary>
internal static class FrameAlignment
{
    /// <summary>Largest difference of the proportion of width to height, as a share: cropping by hand along the edges is good to about one per cent a side.</summary>
    public const double Tolerance = 0.02;

    /// <summary>A plan that takes a photograph as filling its frame, or why not.</summary>
    /// <param name="photograph">The photograph, in which no corners were found.</param>
    /// <param name="proportion">Width over height of the painted face, measured or as other photographs show it; null when nothing is known.</param>
    /// <param name="without">All photographs of the painting in which no corners were found, itself included.</param>
    /// <param name="framesWithSurround">Sizes of photographs in which corners were found away from the border: the same camera position leaves a surround again.</param>
    public static (AlignmentPlan? Plan, string Reason) Try(Photograph photograph, double? proportion, IReadOnlyList<Photograph> without, IReadOnlySet<(int, int)> framesWithSurround)
    {
        var (w, h) = (photograph.Facts.Width, photograph.Facts.Height);
        if (framesWithSurround.Contains((w, h))) return (null, "Its frame is as large as that of photographs that show a surround, so it is not taken as cropped to the face.");
        if (Parts(photograph, without) is > 1 and var parts) return (null, $"It is one of {parts} of the same light and size, as the parts of a painting are, so it is not taken as cropped to the face.");
        var difference = proportion is { } p ? Math.Abs((double)w / h / p - 1) : 0;
        if (difference > Tolerance)
            return (null, string.Create(CultureInfo.InvariantCulture, $"Its proportions differ by {100 * difference:0.#} % from the painted face's, so it is not taken as cropped to the face."));
        var reason = "No corners were found; taken as filling the frame, because "
            + (proportion is null ? "nothing speaks against it." : string.Create(CultureInfo.InvariantCulture, $"its proportions agree with the painted face's within {100 * Tolerance:0} % ({100 * difference:0.0} % apart)."));
        Point2[] corners = [new(0, 0), new(w, 0), new(w, h), new(0, h)];
        return (new AlignmentPlan(AlignmentMethod.WholeFrame, corners, 0, Verdict.Uncertain, reason, null), reason);
    }

    /// <summary>
    /// How many photographs without corners share its light, side and size: several are parts of a painting more likely than repetitions, unless one of another light has that
    /// size alone, as when a cropped painting is in one light once and in another through several filters.
    /// </summary>
    private static int Parts(Photograph photograph, IReadOnlyList<Photograph> without)
    {
        static (string?, string?, double?) LightOf(Photograph p) => (p.Light, p.LightSide, p.AzimuthDeg);
        var counts = without.Where(p => (p.Facts.Width, p.Facts.Height) == (photograph.Facts.Width, photograph.Facts.Height)).CountBy(LightOf).ToDictionary();
        return counts.ContainsValue(1) ? 1 : counts.GetValueOrDefault(LightOf(photograph));
    }
}
