using MathNet.Numerics.LinearAlgebra;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Alignment.Pairs;

/// <summary>
/// Fits a smooth bending to what a map leaves of its matches: penalised B-splines with second-order differences both ways
/// (Eilers and Marx, Statistical Science 11 (1996) 89), the penalty as heavy as held-out matches ask for.
/// </summary>
internal static class SmoothFit
{
    /// <summary>Penalties that are tried, per match: from nearly free to nearly a plane.</summary>
    public static readonly double[] Penalties = [1e-3, 1e-2, 1e-1, 1, 10, 100];

    /// <summary>Fits.</summary>
    /// <param name="map">The map without bending.</param>
    /// <param name="matches">The matches.</param>
    /// <param name="weights">How much each counts, 0 to 1.</param>
    /// <param name="area">Rectangle over which it may bend.</param>
    /// <param name="penalty">Weight of a second difference beside a match.</param>
    /// <returns>Null when the matches do not determine a bending.</returns>
    public static WarpedMap? Fit(HomographyMap map, IReadOnlyList<Match> matches, IReadOnlyList<double> weights, Box area, double penalty)
    {
        var (columns, rows) = Cells(area, weights.Count(w => w > 0));
        var (across, n) = (columns + 3, (columns + 3) * (rows + 3));
        var normal = Matrix<double>.Build.Dense(n, n);
        var sides = Matrix<double>.Build.Dense(n, 2);
        Span<double> wx = stackalloc double[4], wy = stackalloc double[4];
        for (var k = 0; k < matches.Count; k++)
        {
            if (!(weights[k] > 0 && double.IsFinite(weights[k]))) continue;
            var (target, r) = (matches[k].Target, MapFit.Residual(map, matches[k]));
            var (i, j) = (WarpedMap.Weights((target.X - area.Left) / area.Width * columns, columns, wx), WarpedMap.Weights((target.Y - area.Top) / area.Height * rows, rows, wy));
            for (var a = 0; a < 16; a++)
            {
                var (at, w) = ((j + a / 4) * across + i + a % 4, weights[k] * wx[a % 4] * wy[a / 4]);
                sides[at, 0] += w * r.X;
                sides[at, 1] += w * r.Y;
                for (var b = 0; b < 16; b++) normal[at, (j + b / 4) * across + i + b % 4] += w * wx[b % 4] * wy[b / 4];
            }
        }
        Penalise(normal, across, rows + 3, penalty * weights.Sum() / (columns * rows));
        var solved = normal.Solve(sides);
        if (solved.Enumerate().Any(v => !double.IsFinite(v))) return null;
        return new WarpedMap(map, area, columns, rows, solved.Column(0).ToArray(), solved.Column(1).ToArray());
    }

    /// <summary>Some eight cells on the longer side, fewer when there are not four matches for each.</summary>
    private static (int Columns, int Rows) Cells(Box area, int matches)
    {
        var cells = Math.Clamp(matches / 4.0, 1, 64);
        var columns = Math.Clamp((int)Math.Round(Math.Sqrt(cells * area.Width / area.Height)), 1, 10);
        return (columns, Math.Clamp((int)Math.Round(columns * area.Height / area.Width), 1, 10));
    }

    private static void Penalise(Matrix<double> normal, int across, int down, double penalty)
    {
        // A trace of itself keeps corners without matches determined.
        var trace = 1e-7 * normal.Diagonal().Sum() / normal.RowCount + 1e-12;
        for (var i = 0; i < normal.RowCount; i++) normal[i, i] += trace;
        for (var y = 0; y < down; y++)
            for (var x = 0; x < across; x++)
            {
                var i = y * across + x;
                if (x + 2 < across) Add(normal, penalty, (i, 1), (i + 1, -2), (i + 2, 1));
                if (y + 2 < down) Add(normal, penalty, (i, 1), (i + across, -2), (i + 2 * across, 1));
                if (x + 1 < across && y + 1 < down) Add(normal, 2 * penalty, (i, 1), (i + 1, -1), (i + across, -1), (i + across + 1, 1));
            }
    }

    private static void Add(Matrix<double> normal, double weight, params ReadOnlySpan<(int At, double Factor)> difference)
    {
        foreach (var (a, f) in difference)
            foreach (var (b, g) in difference) normal[a, b] += weight * f * g;
    }
}
