using Sandarac.Analysis.Alignment.Lenses;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Alignment.Rulers;

/// <summary>The size of a painted face, from its corners and a ruler seen by the same camera from the same place.</summary>
/// <param name="WidthMm">Width, mm.</param>
/// <param name="HeightMm">Height, mm.</param>
/// <param name="Uncertainty">Half-width of the 95 % interval of both, as a share: the ruler's, the corners' and that of a camera whose tilt is seen but not its focal length.
/// The ruler's distance from the face's plane is not in it.</param>
public sealed record RuledFace(double WidthMm, double HeightMm, double Uncertainty)
{
    /// <summary>Focal length over the longer side of the frame: the longest lens that is usual for copying. It turns a perspective that is seen into a tilt.</summary>
    private const double LongestLens = 3;

    /// <summary>Measures a face. Its perspective is undone, so that the ruler may lie anywhere in its plane; its proportion is that of a camera square to it.</summary>
    /// <param name="corners">Upper left, upper right, lower right, lower left, pixels.</param>
    /// <param name="cornerPixels">Half-width of a corner's 95 % interval, pixels.</param>
    /// <param name="lens">The lens through which they and the ruler are seen.</param>
    /// <param name="width">Width of the photograph, pixels.</param>
    /// <param name="height">Height of the photograph, pixels.</param>
    /// <param name="ruler">The ruler, in a photograph of that size.</param>
    /// <exception cref="ArgumentException">The corners are not those of a convex quadrilateral in this order.</exception>
    public static RuledFace Of(IReadOnlyList<Point2> corners, double cornerPixels, CameraLens lens, int width, int height, RulerScale ruler)
    {
        double[] sides = [.. Enumerable.Range(0, 4).Select(i => corners[i].DistanceTo(corners[(i + 1) % 4]))];
        var proportion = (sides[0] + sides[2]) / (sides[1] + sides[3]);
        // At the middle of the face a pixel must come out as wide as high.
        proportion /= FaceAlignment.FromCorners(corners, lens, 1, proportion).Fit.Proportion;
        var map = FaceAlignment.FromCorners(corners, lens, 1, proportion).Map;
        var unit = ruler.LengthMm / map.ToPlane(ruler.From).DistanceTo(map.ToPlane(ruler.To));
        var share = Root(ruler.Uncertainty / ruler.MmPerPixel, Math.Sqrt(2) * cornerPixels / sides.Min(), Foreshortening(map, LongestLens * Math.Max(width, height)));
        return new RuledFace(proportion * unit, unit, share);
    }

    /// <summary>By how much a tilt shortens what it tilts, 1 - cos, for a focal length in pixels: the depth's slope across the picture is tan(tilt) / focal length.</summary>
    private static double Foreshortening(HomographyMap map, double focal)
    {
        var (c, middle) = (map.PixelToPlane, map.Centre);
        var depth = c[6] * middle.X + c[7] * middle.Y + c[8];
        return 1 - Math.Cos(Math.Atan(focal * Math.Sqrt(c[6] * c[6] + c[7] * c[7]) / Math.Abs(depth)));
    }

    private static double Root(params double[] shares) => Math.Sqrt(shares.Sum(s => s * s));
}
