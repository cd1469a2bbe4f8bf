using Sandarac.Analysis.Alignment.Pairs;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Alignment.Lenses;

/// <summary>A point where four squares of a chessboard meet: a saddle of brightness.</summary>
/// <param name="At">Where, pixels.</param>
/// <param name="Strength">Minus the determinant of the second derivatives.</param>
/// <param name="Along">Ixx - Iyy: with <paramref name="Across"/> the saddle's direction at twice its angle; neighbours on a board have opposite ones.</param>
/// <param name="Across">2 Ixy.</param>
internal sealed record BoardCorner(Point2 At, double Strength, double Along, double Across)
{
    /// <summary>Standard deviation of the smoothing, pixels.</summary>
    private const double Sigma = 1.5;

    /// <summary>Radius within which a saddle must be the strongest, pixels.</summary>
    private const int Alone = 5;

    /// <summary>Steps of Newton's method; the third moves by less than a thousandth of a pixel.</summary>
    private const int Steps = 4;

    /// <summary>Least strength, as a share of the strongest.</summary>
    private const double Least = 0.05;

    /// <summary>All saddles of a picture, the strongest first. Places are where the smoothed brightness has no slope (Newton's method).</summary>
    public static IReadOnlyList<BoardCorner> In(Plane picture)
    {
        if (Math.Min(picture.Width, picture.Height) < 8 * Alone) return [];
        var taps = GaussianTaps.Of(Sigma);
        var smooth = GaussianTaps.Apply(picture, taps.Smooth, taps.Smooth);
        var strength = new Plane(smooth.Width, smooth.Height);
        for (var y = 1; y < smooth.Height - 1; y++)
            for (var x = 1; x < smooth.Width - 1; x++)
            {
                var (_, _, xx, xy, yy) = Derivatives(smooth, x, y);
                strength[x, y] = (float)(xy * xy - xx * yy);
            }
        var least = Least * strength.Data.Max();
        List<BoardCorner> corners = [];
        for (var y = Alone; y < smooth.Height - Alone; y++)
            for (var x = Alone; x < smooth.Width - Alone; x++)
                if (strength[x, y] > least && strength[x, y] > 0 && IsStrongest(strength, x, y) && Place(smooth, strength, x, y, taps.Radius) is { } corner) corners.Add(corner);
        return [.. corners.OrderByDescending(c => c.Strength).ThenBy(c => c.At.Y).ThenBy(c => c.At.X)];
    }

    private static BoardCorner? Place(Plane smooth, Plane strength, int x, int y, int border)
    {
        var (px, py) = ((double)x, (double)y);
        for (var step = 0; step < Steps; step++)
        {
            var (gx, gy, xx, xy, yy) = Between(smooth, px, py);
            var determinant = xx * yy - xy * xy;
            (px, py) = (px + (xy * gy - yy * gx) / determinant, py + (xy * gx - xx * gy) / determinant);
            if (!(Math.Abs(px - x) <= 1.5 && Math.Abs(py - y) <= 1.5)) return null;
        }
        var (_, _, aa, ab, bb) = Between(smooth, px, py);
        return new BoardCorner(new Point2(border + px + 0.5, border + py + 0.5), strength[x, y], aa - bb, 2 * ab);
    }

    /// <summary>The derivatives between four pixels; around a saddle the slope is nearly a plane.</summary>
    private static (double X, double Y, double XX, double XY, double YY) Between(Plane p, double x, double y)
    {
        var (i, j) = ((int)x, (int)y);
        var (s, t) = (x - i, y - j);
        var sum = (X: 0.0, Y: 0.0, XX: 0.0, XY: 0.0, YY: 0.0);
        foreach (var (di, dj, w) in (ReadOnlySpan<(int, int, double)>)[(0, 0, (1 - s) * (1 - t)), (1, 0, s * (1 - t)), (0, 1, (1 - s) * t), (1, 1, s * t)])
        {
            var d = Derivatives(p, i + di, j + dj);
            sum = (sum.X + w * d.X, sum.Y + w * d.Y, sum.XX + w * d.XX, sum.XY + w * d.XY, sum.YY + w * d.YY);
        }
        return sum;
    }

    private static bool IsStrongest(Plane strength, int x, int y)
    {
        for (var j = -Alone; j <= Alone; j++)
            for (var i = -Alone; i <= Alone; i++)
                if (strength[x + i, y + j] > strength[x, y]) return false;
        return true;
    }

    /// <summary>First and second derivatives by central differences.</summary>
    private static (double X, double Y, double XX, double XY, double YY) Derivatives(Plane p, int x, int y) => (
        (p[x + 1, y] - p[x - 1, y]) / 2, (p[x, y + 1] - p[x, y - 1]) / 2, p[x + 1, y] - 2 * p[x, y] + p[x - 1, y],
        (p[x + 1, y + 1] - p[x - 1, y + 1] - p[x + 1, y - 1] + p[x - 1, y - 1]) / 4, p[x, y + 1] - 2 * p[x, y] + p[x, y - 1]);
}
