using Sandarac.Imaging.Geometry;
using Sandarac.Imaging.Warping;

namespace Sandarac.Analysis.Alignment.Pairs;

/// <summary>A square of the target as an image's structure; null where the image has no data in half of it.</summary>
/// <param name="middle">Its middle on the target.</param>
/// <param name="side">Its side, pixels of the patch level.</param>
internal delegate StructureField? FieldAt(Point2 middle, int side);

/// <summary>Structure of one square at a time, resampled for itself.</summary>
internal static class FieldWindow
{
    /// <summary>For an image that lies on the target by a map.</summary>
    public static FieldAt Of(PairImage image, PlaneMap map, double unit, StructureKind kind) => (middle, side) =>
    {
        var wide = side + 2 * StructureField.Margin(PatchMatcher.Taps);
        var grid = new PlaneGrid(new Box(middle.X - wide * unit / 2, middle.Y - wide * unit / 2, wide * unit, wide * unit), unit);
        var bands = PlaneResampler.RoughWindow(image.File, map, grid, 0, 0, wide, wide)[..image.Colours];
        return IsMostlyMissing(bands[0].Data) ? null : StructureField.Of(bands, PatchMatcher.Taps, kind);
    };

    public static bool IsMostlyMissing(ReadOnlySpan<float> values) => Missing(values) > values.Length / 2;

    public static int Missing(ReadOnlySpan<float> values)
    {
        var missing = 0;
        foreach (var value in values) missing += float.IsNaN(value) ? 1 : 0;
        return missing;
    }
}
