using System.Numerics;

namespace Sandarac.Analysis.Numbers;

/// <summary>Robust statistics of small samples.</summary>
internal static class Robust
{
    /// <summary>Standard deviation of a normal distribution over its median absolute deviation.</summary>
    private const double MadToSigma = 1.482602218505602;

    /// <summary>Median; NaN of nothing.</summary>
    public static double Median(IEnumerable<double> values) => Quantile(values, 0.5);

    /// <summary>Quantile between order statistics (Hyndman and Fan, The American Statistician 50 (1996) 361, type 7); NaN of nothing.</summary>
    public static double Quantile(IEnumerable<double> values, double share)
    {
        double[] own = [.. values];
        return QuantileInPlace(own, share);
    }

    /// <summary>The same of values that are sorted already, the least first.</summary>
    public static double QuantileOfSorted<T>(ReadOnlySpan<T> sorted, double share) where T : INumber<T>
    {
        if (sorted.Length == 0) return double.NaN;
        var at = share * (sorted.Length - 1);
        var below = (int)at;
        var value = double.CreateChecked(sorted[below]);
        return below + 1 < sorted.Length ? value + (at - below) * (double.CreateChecked(sorted[below + 1]) - value) : value;
    }

    /// <summary>Standard deviation by the median absolute deviation.</summary>
    public static double Sigma(IReadOnlyCollection<double> values)
    {
        double[] own = [.. values];
        var median = QuantileInPlace(own, 0.5);
        for (var i = 0; i < own.Length; i++) own[i] = Math.Abs(own[i] - median);
        return MadToSigma * QuantileInPlace(own, 0.5);
    }

    /// <summary>Half-width of the 95 % interval of the median of independent, roughly normal values: 1.96 sqrt(pi/2) sigma / sqrt(n).</summary>
    public static double MedianUncertainty(IReadOnlyCollection<double> values) => 1.96 * Math.Sqrt(Math.PI / 2) * Sigma(values) / Math.Sqrt(values.Count);

    /// <summary>Tukey's biweight for a residual in units of the scale, zero beyond 4.685 (Holland and Welsch, Communications in Statistics A6 (1977) 813).</summary>
    public static double Biweight(double residual, double sigma)
    {
        var u = residual / (4.685 * sigma);
        return Math.Abs(u) >= 1 ? 0 : (1 - u * u) * (1 - u * u);
    }

    /// <summary>The quantile of values that may be reordered.</summary>
    private static double QuantileInPlace(Span<double> values, double share)
    {
        if (values.IsEmpty) return double.NaN;
        var at = share * (values.Length - 1);
        var below = (int)at;
        if (below + 1 == values.Length) return Selection.Select(values, below);
        var above = Selection.Select(values, below + 1);
        var value = Selection.Greatest<double>(values[..(below + 1)]);
        return value + (at - below) * (above - value);
    }
}
