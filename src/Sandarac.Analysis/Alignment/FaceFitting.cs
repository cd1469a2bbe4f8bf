using Sandarac.Analysis.Numbers;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Alignment;

/// <summary>Four straight lines and one radial coefficient through points on the four sides.</summary>
/// <remarks>
/// The plumb-line method: what is straight on the object must become straight when the lens is undone (Brown, Close-range camera calibration, Photogrammetric
/// Engineering 37 (1971) 855). For each trial coefficient the points are undistorted and each side gets its total-least-squares line; the coefficient is the one
/// with the least weighted sum of squared distances (golden-section search, then the vertex of a parabola: the sum is nearly one in the coefficient), and weights
/// follow Tukey's biweight.
/// </remarks>
internal sealed class FaceFitting
{
    /// <summary>Largest coefficient tried either way: a bow of some 3 % of the frame.</summary>
    private const double MostK1 = 0.12;

    /// <summary>Width of the interval in which the cost is taken for a parabola.</summary>
    private const double Bracket = 4e-3;

    private readonly IReadOnlyList<Point2>[] _sides;
    private readonly int _width;
    private readonly int _height;
    private double[][] _weights;

    private FaceFitting(IReadOnlyList<Point2>[] sides, int width, int height)
    {
        (_sides, _width, _height) = (sides, width, height);
        _weights = [.. sides.Select(s => Enumerable.Repeat(1.0, s.Count).ToArray())];
    }

    /// <summary>Fits with given weights near a coefficient that fits all points, for repeated fits to parts of them.</summary>
    public static FaceLines Fit(IReadOnlyList<Point2>[] sides, double[][] weights, double nearK1, int width, int height)
    {
        var fitting = new FaceFitting(sides, width, height) { _weights = weights };
        return fitting.At(fitting.Vertex(nearK1, Bracket / 2));
    }

    /// <summary>Fits; sides in the order of <see cref="Side"/>.</summary>
    public static FaceLines Fit(IReadOnlyList<Point2>[] sides, int width, int height)
    {
        var fitting = new FaceFitting(sides, width, height);
        FaceLines lines = null!;
        for (var i = 0; i < 6; i++)
        {
            lines = fitting.At(fitting.BestK1());
            fitting._weights = [.. sides.Select((s, k) => Weights(lines.Distances((Side)k, s)))];
        }
        return lines;
    }

    /// <summary>Weights of points by their distances.</summary>
    public static double[] Weights(double[] distances)
    {
        // 0.05 px: below this, differences between pixels are not to be had, and a perfect drawing must not lose its points.
        var sigma = Math.Max(0.05, Robust.Sigma(distances));
        return [.. distances.Select(d => Robust.Biweight(d, sigma))];
    }

    private double BestK1()
    {
        var ratio = (Math.Sqrt(5) - 1) / 2;
        var (a, b) = (-MostK1, MostK1);
        var (c, d) = (b - ratio * (b - a), a + ratio * (b - a));
        var (fc, fd) = (Cost(c), Cost(d));
        while (b - a > Bracket)
        {
            if (fc < fd)
            {
                (b, d, fd) = (d, c, fc);
                c = b - ratio * (b - a);
                fc = Cost(c);
            }
            else
            {
                (a, c, fc) = (c, d, fd);
                d = a + ratio * (b - a);
                fd = Cost(d);
            }
        }
        return Vertex(Vertex((a + b) / 2, Bracket / 2), Bracket / 20);
    }

    /// <summary>Vertex of the parabola through the cost at a coefficient and a step to either side; at most two steps away.</summary>
    private double Vertex(double k1, double step)
    {
        var (before, here, after) = (Cost(k1 - step), Cost(k1), Cost(k1 + step));
        var curvature = before - 2 * here + after;
        return curvature > 0 ? k1 + step * Math.Clamp(0.5 * (before - after) / curvature, -2, 2) : k1;
    }

    private double Cost(double k1)
    {
        var lens = FaceLines.Lens(_width, _height, k1);
        return _sides.Select((s, k) => IdealLine.Residual(s, lens, _weights[k])).Sum();
    }

    private FaceLines At(double k1)
    {
        var lens = FaceLines.Lens(_width, _height, k1);
        return new FaceLines(lens, [.. _sides.Select((s, k) => IdealLine.Fit([.. s.Select(lens.ToPlane)], _weights[k]))]);
    }
}
