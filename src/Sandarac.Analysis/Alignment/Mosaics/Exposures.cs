using MathNet.Numerics.LinearAlgebra;
using Sandarac.Imaging.Geometry;
using Sandarac.Imaging.Warping;

namespace Sandarac.Analysis.Alignment.Mosaics;

/// <summary>
/// A factor and an offset for each part that make overlapping parts alike, by least squares over all overlaps with the parts held near what they are
/// (gain compensation: Brown and Lowe, Int. J. Computer Vision 74 (2007) 59, section 6).
/// </summary>
internal static class Exposures
{
    private const int Samples = 24;

    /// <summary>How strongly each sample holds its parts at their own exposures: the ratio of the variances that the source takes, (10 / 255)^2 of values to 0.1^2 of factors.</summary>
    private const double Hold = 0.154;

    /// <summary>Factor and offset of each part, the offset in the parts' own values.</summary>
    public static IReadOnlyList<(double Factor, double Offset)> Balance(IReadOnlyList<MosaicPart> parts, IReadOnlyList<Box> insides)
    {
        var pairs = new List<(int A, int B, double U, double V)>();
        for (var j = 0; j < parts.Count; j++)
            for (var i = 0; i < j; i++) pairs.AddRange(Shared(parts[i], insides[i], parts[j], insides[j]).Select(s => (i, j, s.U, s.V)));
        if (pairs.Count == 0) return [.. parts.Select(_ => (1.0, 0.0))];
        var size = Math.Max(1e-12, pairs.Average(p => Math.Abs(p.U) + Math.Abs(p.V)) / 2);
        var weights = new double[pairs.Count];
        weights.AsSpan().Fill(1);
        var solved = Vector<double>.Build.Dense(2 * parts.Count);
        for (var round = 0; round < 5; round++)
        {
            solved = Solve(parts.Count, pairs, size, weights);
            double[] residuals = [.. pairs.Select(p => solved[2 * p.A] * p.U / size + solved[2 * p.A + 1] - solved[2 * p.B] * p.V / size - solved[2 * p.B + 1])];
            var scale = Math.Max(1e-6, Numbers.Robust.Median(residuals.Select(Math.Abs)) * 1.4826);
            for (var k = 0; k < weights.Length; k++) weights[k] = Numbers.Robust.Biweight(residuals[k], scale);
        }
        return [.. Enumerable.Range(0, parts.Count).Select(i => (solved[2 * i], solved[2 * i + 1] * size))];
    }

    private static Vector<double> Solve(int parts, List<(int A, int B, double U, double V)> pairs, double size, double[] weights)
    {
        var (normal, right) = (Matrix<double>.Build.Dense(2 * parts, 2 * parts), Vector<double>.Build.Dense(2 * parts));
        for (var k = 0; k < pairs.Count; k++)
        {
            var (a, b, u, v) = pairs[k];
            (int At, double Factor)[] row = [(2 * a, u / size), (2 * a + 1, 1), (2 * b, -v / size), (2 * b + 1, -1)];
            foreach (var (i, f) in row)
                foreach (var (j, g) in row) normal[i, j] += weights[k] * f * g;
        }
        for (var i = 0; i < parts; i++)
        {
            var hold = Hold * Math.Max(1, pairs.Count(p => p.A == i || p.B == i));
            normal[2 * i, 2 * i] += hold;
            right[2 * i] += hold;
            normal[2 * i + 1, 2 * i + 1] += hold;
        }
        return normal.Cholesky().Solve(right);
    }

    /// <summary>Values of both parts, smoothed over a few pixels, on a lattice over what they share.</summary>
    private static IEnumerable<(double U, double V)> Shared(MosaicPart a, Box insideA, MosaicPart b, Box insideB)
    {
        var shared = a.Area.Shared(b.Area);
        var (left, top, width, height) = (shared.Left, shared.Top, shared.Width, shared.Height);
        if (width <= 0 || height <= 0) yield break;
        var step = Math.Max(width, height) / Samples;
        var grid = PlaneGrid.Covering(shared, step);
        var u = PlaneResampler.Window(a.Image.File, a.Map, grid, 0, 0, grid.Width, grid.Height);
        var v = PlaneResampler.Window(b.Image.File, b.Map, grid, 0, 0, grid.Width, grid.Height);
        for (var y = 0; y < grid.Height; y++)
            for (var x = 0; x < grid.Width; x++)
            {
                Point2 at = new(left + (x + 0.5) * step, top + (y + 0.5) * step);
                if (!insideA.Contains(a.Map.ToPixel(at)) || !insideB.Contains(b.Map.ToPixel(at))) continue;
                var (s, t) = (u.Average(c => c[x, y]), v.Average(c => c[x, y]));
                if (float.IsFinite(s) && float.IsFinite(t)) yield return (s, t);
            }
    }
}
