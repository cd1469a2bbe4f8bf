using MathNet.Numerics.Distributions;

namespace Sandarac.Analysis.Rings.Dating;

/// <summary>
/// Gleichlaeufigkeit, the coefficient of parallel variation: the share of years in which two series both grow wider or both narrower than the year before; a year without change in either counts half (that ties count half:
/// from memory). Huber (1942); Eckstein and Bauch, Forstwissenschaftliches Centralblatt 88 (1969) 230; Buras and Wilmking, Dendrochronologia 34 (2015) 29.
/// </summary>
/// <param name="Share">0 to 1.</param>
/// <param name="Changes">How many year-to-year changes were compared.</param>
public readonly record struct ParallelVariation(double Share, int Changes)
{
    /// <summary>Compares changes, position by position; NaN leaves a year out.</summary>
    public static ParallelVariation Of(ReadOnlySpan<double> a, ReadOnlySpan<double> b)
    {
        var (halves, n) = (0, 0);
        for (var i = 0; i < a.Length; i++)
        {
            if (double.IsNaN(a[i]) || double.IsNaN(b[i])) continue;
            halves += 1 + Math.Sign(a[i]) * Math.Sign(b[i]);
            n++;
        }
        return new ParallelVariation(n == 0 ? double.NaN : halves / (2.0 * n), n);
    }

    /// <summary>Chance that series which have nothing in common agree so often, one-sided, by the normal distribution: z = (G - 1/2) 2 sqrt(n).</summary>
    public double Chance => Normal.CDF(0, 1, -(Share - 0.5) * 2 * Math.Sqrt(Changes));

    /// <summary>The share that chance alone reaches with a probability of 1 - <paramref name="confidence"/>: 1/2 + z / (2 sqrt(n)).</summary>
    /// <param name="changes">Number of changes compared.</param>
    /// <param name="confidence">0.95, 0.99 and 0.999 are usual.</param>
    public static double Limit(int changes, double confidence) => 0.5 + Normal.InvCDF(0, 1, confidence) / (2 * Math.Sqrt(changes));
}
