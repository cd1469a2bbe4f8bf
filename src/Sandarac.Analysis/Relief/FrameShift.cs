using Sandarac.Imaging;

namespace Sandarac.Analysis.Relief;

/// <summary>
/// How far one photograph lies beside what all of them together say it should show: its residuals against the slopes of that picture, by least squares (Lucas and Kanade, IJCAI 1981, 674).
/// Three of n photographs' freedom is in the fit, so that n / (n - 3) of what is seen is the shift. Good for shifts up to about a pixel; greater ones come out too small.
/// </summary>
internal readonly record struct FrameShift(double XX, double XY, double YY, double BX, double BY, double Left, double All)
{
    /// <summary>Every fourth row: neighbours tell the same.</summary>
    private const int RowStep = 4;

    public static FrameShift operator +(FrameShift a, FrameShift b) => new(a.XX + b.XX, a.XY + b.XY, a.YY + b.YY, a.BX + b.BX, a.BY + b.BY, a.Left + b.Left, a.All + b.All);

    /// <summary>Share of the photograph's light that the picture leaves unexplained.</summary>
    public double Unexplained => All > 0 ? Left / All : 0;

    /// <summary>Length of the shift, pixels; null where nothing in the picture tells, or where three photographs leave no residuals.</summary>
    public double? Pixels(int lamps)
    {
        var det = XX * YY - XY * XY;
        if (lamps <= LampSet.Fewest || !(det > 1e-9 * (XX + YY) * (XX + YY))) return null;
        var (x, y) = ((YY * BX - XY * BY) / det, (XX * BY - XY * BX) / det);
        return Math.Sqrt(x * x + y * y) * lamps / (lamps - LampSet.Fewest);
    }

    /// <summary>Sums over a window.</summary>
    public static FrameShift Of(Plane light, SurfaceNormals surface, LampSet lamps, int lamp, int left, int top)
    {
        var sum = default(FrameShift);
        var rows = new double[3][];
        for (var y = 1; y < light.Height - 1; y += RowStep)
        {
            for (var k = 0; k < 3; k++) rows[k] = Predicted(surface, lamps, lamp, left, top, y + k - 1);
            for (var x = 1; x < light.Width - 1; x++)
            {
                var (gx, gy, r) = ((rows[1][x + 1] - rows[1][x - 1]) / 2, (rows[2][x] - rows[0][x]) / 2, rows[1][x] - light[x, y]);
                if (double.IsFinite(gx + gy + r)) sum += new FrameShift(gx * gx, gx * gy, gy * gy, gx * r, gy * r, Math.Abs(r), light[x, y]);
            }
        }
        return sum;
    }

    private static double[] Predicted(SurfaceNormals s, LampSet lamps, int lamp, int left, int top, int y)
    {
        var (row, far) = (new double[s.X.Width], lamps.Row(lamp, left, top + y));
        for (var x = 0; x < row.Length; x++)
        {
            var (l, nx, ny) = (lamps.IsNear ? lamps.Row(lamp, left + x, top + y) : far, (double)s.X[x, y], (double)s.Y[x, y]);
            row[x] = Math.Max(0, s.Albedo[x, y] * (l.X * nx + l.Y * ny + l.Z * Math.Sqrt(Math.Max(0, 1 - nx * nx - ny * ny))));
        }
        return row;
    }
}
