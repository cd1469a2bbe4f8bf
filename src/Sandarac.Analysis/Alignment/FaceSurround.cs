using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Alignment;

/// <summary>Whether what lies inside four corners looks like a painting and what lies outside like the wall or easel around it.</summary>
/// <param name="InsideTextured">Share of the cells inside that hold texture, 0 to 1.</param>
/// <param name="OutsideTextured">Share of the cells outside that hold texture; NaN when there is too little surround to tell.</param>
internal sealed record FaceSurround(double InsideTextured, double OutsideTextured)
{
    private const int Cell = 8;
    private const int FewestOutside = 20;

    /// <summary>Texture as a multiple of pixel noise.</summary>
    private const double TextureToNoise = 3;

    /// <summary>Most of a cell's variance that may lie between its rows, or between its columns.</summary>
    private const double MostOneWay = 0.8;

    /// <summary>Looks at a reduced picture in cells of 8 x 8 pixels; those that a side crosses are left out.</summary>
    /// <param name="planes">Its bands.</param>
    /// <param name="corners">Corners in its pixels, clockwise from the upper left.</param>
    /// <param name="floor">Spread below which a cell counts as even, whatever the noise.</param>
    public static FaceSurround Of(Plane[] planes, Point2[] corners, double floor)
    {
        double[] limits = [.. planes.Select(p => Math.Max(floor, TextureToNoise * Noise(p)))];
        var (inside, outside, insideTextured, outsideTextured) = (0, 0, 0, 0);
        for (var y = 0; y + Cell <= planes[0].Height; y += Cell)
            for (var x = 0; x + Cell <= planes[0].Width; x += Cell)
            {
                var depth = Depth(corners, new Point2(x + Cell / 2.0, y + Cell / 2.0));
                if (Math.Abs(depth) < Cell) continue;
                var textured = planes.Where((p, b) => IsTextured(p, x, y, limits[b])).Any();
                if (depth > 0) (inside, insideTextured) = (inside + 1, insideTextured + (textured ? 1 : 0));
                else (outside, outsideTextured) = (outside + 1, outsideTextured + (textured ? 1 : 0));
            }
        return new FaceSurround(inside == 0 ? 0 : (double)insideTextured / inside, outside < FewestOutside ? double.NaN : (double)outsideTextured / outside);
    }

    /// <summary>Distance from the nearest side, positive inside.</summary>
    private static double Depth(Point2[] c, Point2 p) => Enumerable.Range(0, 4).Min(i =>
    {
        var (a, b) = (c[i], c[(i + 1) % 4]);
        return ((b.X - a.X) * (p.Y - a.Y) - (b.Y - a.Y) * (p.X - a.X)) / a.DistanceTo(b);
    });

    /// <summary>Whether a cell varies, and not merely from row to row or from column to column: the edge of a patch on a chart does that, paint hardly.</summary>
    private static bool IsTextured(Plane p, int left, int top, double limit)
    {
        Span<double> rows = stackalloc double[Cell], columns = stackalloc double[Cell];
        double sum = 0, squares = 0;
        for (var y = 0; y < Cell; y++)
            for (var x = 0; x < Cell; x++)
            {
                double v = p[left + x, top + y];
                (sum, squares, rows[y], columns[x]) = (sum + v, squares + v * v, rows[y] + v / Cell, columns[x] + v / Cell);
            }
        var mean = sum / (Cell * Cell);
        var variance = squares / (Cell * Cell) - mean * mean;
        return variance > limit * limit && Math.Max(Variance(rows, mean), Variance(columns, mean)) < MostOneWay * variance;
    }

    private static double Variance(Span<double> values, double mean)
    {
        double sum = 0;
        foreach (var v in values) sum += (v - mean) * (v - mean);
        return sum / values.Length;
    }

    /// <summary>Pixel noise where it is least: the lower decile over blocks, so that texture does not raise it.</summary>
    private static double Noise(Plane p) => Numbers.Robust.Quantile(Quality.QualityBlock.Of(p, 0, 0).Select(b => b.Noise).DefaultIfEmpty(0), 0.1);
}
