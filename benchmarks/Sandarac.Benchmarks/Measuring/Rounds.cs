namespace Sandarac.Benchmarks.Measuring;

/// <summary>Measures two sides in turn, so that whatever else the machine does falls on both.</summary>
internal static class Rounds
{
    /// <summary>Runs both sides alternately.</summary>
    /// <returns>The medians over the rounds.</returns>
    public static (double First, double Second) Alternate(int rounds, Func<double> first, Func<double> second)
    {
        var (a, b) = (new double[rounds], new double[rounds]);
        for (var i = 0; i < rounds; i++) (a[i], b[i]) = (first(), second());
        return (Median(a), Median(b));
    }

    public static double Median(IEnumerable<double> values) => Percentile(values, 0.5);

    /// <summary>The smallest value that at least this share of all values does not exceed.</summary>
    public static double Percentile(IEnumerable<double> values, double share)
    {
        var sorted = values.Order().ToArray();
        return sorted[Math.Clamp((int)Math.Ceiling(share * sorted.Length) - 1, 0, sorted.Length - 1)];
    }
}
