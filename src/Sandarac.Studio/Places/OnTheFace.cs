using Sandarac.Imaging;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Places;

/// <summary>Whether a place that a person gave lies on the painting.</summary>
internal static class OnTheFace
{
    /// <summary>A painting whose size nobody knows yet may be this wide and high, mm.</summary>
    private const double Widest = 1e6;

    /// <summary>Refuses a place that is none.</summary>
    /// <param name="painting">The painting.</param>
    /// <param name="x">mm from the left edge.</param>
    /// <param name="y">mm from the upper edge.</param>
    /// <param name="code">Code of the problem.</param>
    /// <param name="marginMm">How far beyond the face it may lie: a sample may come from an edge that is turned over.</param>
    /// <exception cref="InputProblem">Only one of both is given, one is no number, or it lies outside.</exception>
    public static void Require(Painting painting, double? x, double? y, string code, double marginMm = 0)
    {
        if (x is null && y is null) return;
        if (x is not { } left || y is not { } top || !double.IsFinite(left) || !double.IsFinite(top))
            throw new InputProblem(code, "place", "The place is not two numbers.", "Give both in mm, from the left edge and from the bottom edge, or neither.");
        var (width, height) = painting.WidthMm > 0 ? (painting.WidthMm, painting.HeightMm) : (Widest, Widest);
        if (left < -marginMm || top < -marginMm || left > width + marginMm || top > height + marginMm)
            throw new InputProblem(code, "place", $"{Place.Text(left, top, painting.HeightMm)} is not on the painting.", $"It measures {Documents.Words.Size(painting)}, height first.");
    }
}
