using MathNet.Numerics.LinearAlgebra;
using Sandarac.Analysis.Numbers;

namespace Sandarac.Analysis.Quality;

/// <summary>How much darker a part of the frame is than the brightest part.</summary>
/// <param name="Region">"lower right", "middle".</param>
/// <param name="Stops">Stops below the brightest region, 0 or less.</param>
/// <param name="Uncertainty">Half-width of the 95 % interval, stops.</param>
internal sealed record RegionLight(string Region, double Stops, double Uncertainty);

/// <summary>Evenness of the lighting in nine regions of the frame.</summary>
internal static class Evenness
{
    private static readonly string[] Regions =
        ["upper left", "top", "upper right", "left", "middle", "right", "lower left", "bottom", "lower right"];

    /// <summary>The outer tenth on each side is left out of the estimate: there the surround lies, not the painting.</summary>
    private const double Middle = 0.8;

    /// <summary>Blocks needed for either way.</summary>
    public const int FewestBlocks = 36;

    /// <summary>Parts of the 4 x 4 that must have light: with fewer, leaving one out may leave a surface undetermined.</summary>
    private const int FewestParts = 10;

    /// <summary>From a photograph of an even board: medians of the nine regions.</summary>
    /// <param name="blocks">Middle of each block as shares of the frame (0 to 1), and its light in stops.</param>
    /// <returns>Nothing when a region has no light at all.</returns>
    public static IReadOnlyList<RegionLight> FromFlat(IReadOnlyCollection<(double U, double V, double Stops)> blocks)
    {
        var values = Enumerable.Range(0, 9).Select(r => blocks.Where(b => RegionOf(b.U, b.V) == r).Select(b => b.Stops).ToArray()).ToArray();
        if (values.Any(v => v.Length == 0)) return [];
        double[] medians = [.. values.Select(Robust.Median)];
        var brightest = Array.IndexOf(medians, medians.Max());
        double[] errors = [.. values.Select(Robust.MedianUncertainty)];
        return [.. Regions.Select((name, r) => new RegionLight(name, medians[r] - medians[brightest], r == brightest ? 0 : Math.Sqrt(errors[r] * errors[r] + errors[brightest] * errors[brightest])))];
    }

    /// <summary>
    /// From the photograph itself: a second-degree surface through the blocks' light in stops, fitted robustly (iterated weights, Holland and Welsch 1977), read in the middle of each region. Uncertainty by
    /// leaving out each of 4 x 4 parts of the frame in turn (jackknife, Tukey 1958): neighbouring blocks share the painting's tones and are not independent, parts nearly are.
    /// </summary>
    /// <returns>Nothing when too few blocks, or blocks in too few parts of the frame, have light for a surface of second degree.</returns>
    public static IReadOnlyList<RegionLight> Estimate(IReadOnlyCollection<(double U, double V, double Stops)> blocks)
    {
        var inner = blocks.Where(b => Math.Abs(b.U - 0.5) <= Middle / 2 && Math.Abs(b.V - 0.5) <= Middle / 2).ToArray();
        var parts = inner.Select(b => (int)((b.U - 0.1) / Middle * 3.9999) + 4 * (int)((b.V - 0.1) / Middle * 3.9999)).ToArray();
        if (inner.Length < FewestBlocks || parts.Distinct().Count() < FewestParts) return [];
        var all = Surface(inner);
        var brightest = Array.IndexOf(all, all.Max());
        double[][] without = [.. Enumerable.Range(0, 16).Select(k => Surface([.. inner.Where((_, i) => parts[i] != k)]))];
        return [.. Regions.Select((name, r) => new RegionLight(name, all[r] - all[brightest], 1.96 * Jackknife([.. without.Select(w => w[r] - w[brightest])])))];
    }

    private static double Jackknife(double[] values)
    {
        var mean = values.Average();
        return Math.Sqrt((values.Length - 1.0) / values.Length * values.Sum(v => (v - mean) * (v - mean)));
    }

    private static int RegionOf(double u, double v) => Math.Min(2, (int)(u * 3)) + 3 * Math.Min(2, (int)(v * 3));

    private static double[] Surface((double U, double V, double Stops)[] blocks)
    {
        var design = Matrix<double>.Build.DenseOfRows(blocks.Select(b => Terms(b.U, b.V)));
        var y = Vector<double>.Build.Dense([.. blocks.Select(b => b.Stops)]);
        var weights = Vector<double>.Build.Dense(blocks.Length, 1);
        Vector<double> fit = null!;
        for (var i = 0; i < 10; i++)
        {
            var weighted = Matrix<double>.Build.Dense(design.RowCount, design.ColumnCount, (r, c) => design[r, c] * weights[r]);
            fit = (weighted.TransposeThisAndMultiply(design)).Cholesky().Solve(weighted.TransposeThisAndMultiply(y));
            var residual = y - design * fit;
            var sigma = Robust.Sigma(residual.AsArray());
            if (sigma <= 1e-12) break;
            weights = residual.Map(r => Robust.Biweight(r, sigma));
        }
        return [.. Enumerable.Range(0, 9).Select(r => Vector<double>.Build.Dense(Terms((r % 3 + 0.5) / 3, (r / 3 + 0.5) / 3)).DotProduct(fit))];
    }

    private static double[] Terms(double u, double v)
    {
        var (x, y) = (2 * u - 1, 2 * v - 1);
        return [1, x, y, x * x, x * y, y * y];
    }
}
