using Sandarac.Imaging.Geometry;
using Sandarac.Imaging.Warping;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Jobs;

/// <summary>The grid of a photograph that was matched: the painting's own when it shows the whole face, else its part of the face, as fine as it is itself.</summary>
internal static class MatchedGrid
{
    /// <summary>A photograph shows the whole face when less than this share of its width or height is missing.</summary>
    private const double Missing = 0.02;

    public static PlaneGrid Of(PlaneMap map, Photograph photograph, AlignmentPlan plan)
    {
        var shown = Shown(map, photograph, plan.Face);
        var whole = shown.Width >= (1 - Missing) * plan.Face.Width && shown.Height >= (1 - Missing) * plan.Face.Height;
        if (!whole) return PlaneGrid.For(map, shown);
        return plan.MmPerPixel > 0 ? PlaneGrid.Covering(plan.Face, plan.MmPerPixel) : PlaneGrid.For(map, plan.Face);
    }

    /// <summary>The part of the face, as a rectangle, in which the photograph's outline lies.</summary>
    public static Box Shown(PlaneMap map, Photograph photograph, Box face)
    {
        var shown = map.Bounds(photograph.Facts.Width, photograph.Facts.Height).Shared(face);
        return shown is { Width: > 0, Height: > 0 } ? shown : face;
    }
}
