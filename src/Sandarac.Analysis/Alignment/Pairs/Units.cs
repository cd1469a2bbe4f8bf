using Sandarac.Imaging.Geometry;
using Sandarac.Imaging.Warping;

namespace Sandarac.Analysis.Alignment.Pairs;

/// <summary>Sizes of pixels on the target.</summary>
internal static class Units
{
    /// <summary>Size of a pixel at which the coarser of two photographs loses nothing, target units.</summary>
    public static double Finest(PlaneMap referenceMap, Box area, PlaneMap map, PairImage moving) =>
        Math.Max(PlaneGrid.MeanScale(referenceMap, area), ScaleAt(map, new Point2(moving.File.Width / 2.0, moving.File.Height / 2.0)));

    /// <summary>Side of a pixel on the target: the root of its area.</summary>
    public static double ScaleAt(PlaneMap map, Point2 pixel)
    {
        var (o, x, y) = (map.ToPlane(pixel), map.ToPlane(new Point2(pixel.X + 1, pixel.Y)), map.ToPlane(new Point2(pixel.X, pixel.Y + 1)));
        return Math.Sqrt(Math.Abs((x.X - o.X) * (y.Y - o.Y) - (x.Y - o.Y) * (y.X - o.X)));
    }
}
