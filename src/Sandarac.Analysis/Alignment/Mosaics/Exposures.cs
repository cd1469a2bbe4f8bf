using MathNet.Numerics.LinearAlgebra;
using Sandarac.Imaging.Geometry;
using Sandarac.Imaging.Warping;

namespace Sandarac.Analysis.Alignment.Mosaics;

/// <summary>
/// A factor and an offset for each part that make overlapping parts alike. Each overlap says by what factor its two parts differ, and how surely; all factors
/// follow by least squares in their logarithms, then all offsets, with each part held at its own exposure once, not by every sample (gain compensation: Brown
/// and Lowe, Int. J. Computer Vision 74 (2007) 59, section 6, which lets the hold grow with the overlap and so leaves part of every step).
/// </summary>
internal static class Exposures
{
    private const int Samples = 24;
    private const int FewestSamples = 12;
    private const int Rounds = 5;

    /// <summary>Exposures of one series differ by about a stop at most: ln 2. It decides only what no overlap tells, such as the exposure of the whole.</summary>
    private const double Freedom = 0.69;

    /// <summary>Light falls off over a frame: no overlap tells exposures to better than a hundredth.</summary>
    private const double Unevenness = 0.01;

    /// <summary>What an overlap says of the exposures of its two parts.</summary>
    /// <param name="A">One part.</param>
    /// <param name="B">The other.</param>
    /// <param name="Ratio">By what factor values of B vary more than those of A.</param>
    /// <param name="RatioVariance">Of its logarithm.</param>
    /// <param name="U">Mean value in A.</param>
    /// <param name="V">In B.</param>
    /// <param name="Spread">Standard error of their difference.</param>
    private readonly record struct Link(int A, int B, double Ratio, double RatioVariance, double U, double V, double Spread);

    /// <summary>Factor and offset of each part, the offset in the parts' own values.</summary>
    public static IReadOnlyList<(double Factor, double Offset)> Balance(IReadOnlyList<MosaicPart> parts, IReadOnlyList<Box> insides)
    {
        var links = new List<Link>();
        for (var j = 0; j < parts.Count; j++)
            for (var i = 0; i < j; i++)
                if (Compare(i, j, [.. Shared(parts[i], insides[i], parts[j], insides[j])]) is { } link) links.Add(link);
        if (links.Count == 0) return [.. parts.Select(_ => (1.0, 0.0))];
        double[] factors = [.. Solve(parts.Count, links.Select(l => (l.A, l.B, Math.Log(l.Ratio), l.RatioVariance)), Freedom).Select(Math.Exp)];
        var size = Math.Max(1e-12, links.Average(l => Math.Abs(l.U) + Math.Abs(l.V)) / 2);
        var offsets = Solve(parts.Count, links.Select(l => (l.A, l.B, factors[l.B] * l.V - factors[l.A] * l.U, Square(Unevenness * size) + Square(l.Spread))), Freedom * size);
        return [.. factors.Zip(offsets)];
    }

    /// <summary>Numbers whose differences are as given, each weighed by its variance, held near 0 by their own standard deviation.</summary>
    private static Vector<double> Solve(int count, IEnumerable<(int A, int B, double Difference, double Variance)> differences, double deviation)
    {
        var (normal, right) = (Matrix<double>.Build.DenseIdentity(count) / Square(deviation), Vector<double>.Build.Dense(count));
        foreach (var (a, b, difference, variance) in differences)
        {
            var weight = 1 / variance;
            (normal[a, a], normal[b, b]) = (normal[a, a] + weight, normal[b, b] + weight);
            (normal[a, b], normal[b, a]) = (normal[a, b] - weight, normal[b, a] - weight);
            (right[a], right[b]) = (right[a] + weight * difference, right[b] - weight * difference);
        }
        return normal.Cholesky().Solve(right);
    }

    /// <summary>The line through the pairs of values that treats both parts alike (reduced major axis), without those far from it.</summary>
    private static Link? Compare(int a, int b, IReadOnlyList<(double U, double V)> pairs)
    {
        if (pairs.Count < FewestSamples) return null;
        var weights = new double[pairs.Count];
        weights.AsSpan().Fill(1);
        for (var round = 0; ; round++)
        {
            var all = weights.Sum();
            var (u, v) = (Mean(p => p.U), Mean(p => p.V));
            var (uu, vv, uv) = (Mean(p => Square(p.U - u)), Mean(p => Square(p.V - v)), Mean(p => (p.U - u) * (p.V - v)));
            // What does not vary alike tells no factor: its variance is infinite.
            var shared = uv > 0 ? uv * uv / (uu * vv) : 0;
            var ratio = shared > 0 ? Math.Sqrt(vv / uu) : 1;
            double[] residuals = [.. pairs.Select(p => p.V - v - ratio * (p.U - u))];
            var scale = Math.Max(1e-6 * Math.Sqrt(vv), Numbers.Robust.Median(residuals.Select(Math.Abs)) * 1.4826);
            if (round == Rounds) return new Link(a, b, ratio, Square(Unevenness) + (1 - shared) / shared / all, u, v, scale / Math.Sqrt(all));
            for (var k = 0; k < weights.Length; k++) weights[k] = Numbers.Robust.Biweight(residuals[k], scale);
            double Mean(Func<(double U, double V), double> of) => pairs.Select((p, k) => weights[k] * of(p)).Sum() / all;
        }
    }

    private static double Square(double v) => v * v;

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
