using System.Diagnostics;

namespace Sandarac.Benchmarks.Measuring;

/// <summary>Measures two sides in turn, so that whatever else the machine does falls on both.</summary>
internal static class Rounds
{
    /// <summary>Runs both sides alternately.</summary>
    /// <returns>What each gave, round by round.</returns>
    public static (IReadOnlyList<T> First, IReadOnlyList<T> Second) Alternate<T>(int rounds, Func<T> first, Func<T> second)
    {
        var (a, b) = (new T[rounds], new T[rounds]);
        for (var i = 0; i < rounds; i++) (a[i], b[i]) = (first(), second());
        return (a, b);
    }

    public static double Median(IEnumerable<double> values) => Percentile(values, 0.5);

    /// <summary>The smallest value that at least this share of all values does not exceed.</summary>
    public static double Percentile(IEnumerable<double> values, double share)
    {
        var sorted = values.Order().ToArray();
        return sorted[Math.Clamp((int)Math.Ceiling(share * sorted.Length) - 1, 0, sorted.Length - 1)];
    }

    /// <summary>How long work takes, s.</summary>
    public static double Seconds(Action work)
    {
        var start = Stopwatch.GetTimestamp();
        work();
        return Stopwatch.GetElapsedTime(start).TotalSeconds;
    }
}
