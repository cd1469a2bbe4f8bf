using System.Collections.Concurrent;

namespace Sandarac.Analysis.Brushwork;

/// <summary>
/// Whether stops come at even distances. The period is the mean distance when a stop that was missed is counted (a distance near twice the median holds one);
/// its unevenness is measured by the same rule on stops strewn at random along a line (a Poisson process), which is the null: the share of such lines that are as even is p.
/// </summary>
/// <param name="PeriodMm">Mean distance of two stops, mm.</param>
/// <param name="Uncertainty">Half-width of its interval of about 95 %, mm.</param>
/// <param name="Unevenness">Standard deviation of the distances over the period.</param>
/// <param name="P">Share of randomly strewn stops that are as even or more.</param>
/// <param name="Stops">How many stops.</param>
internal sealed record PullRhythm(double PeriodMm, double Uncertainty, double Unevenness, double P, int Stops)
{
    /// <summary>Fewest stops that can show a rhythm; the null's probability and the unevenness at most for one to be reported.</summary>
    private const int Fewest = 5;
    private const double MostP = 0.01, MostUnevenness = 0.25;

    private const int Draws = 4000;
    private static readonly ConcurrentDictionary<int, double[]> Null = new();

    /// <summary>Whether stops come evenly enough, beyond chance, to be called a rhythm.</summary>
    public bool IsRhythm => P <= MostP && Unevenness <= MostUnevenness;

    /// <summary>What can be said of stops; null when they are too few.</summary>
    /// <param name="stops">Places, mm, in order.</param>
    public static PullRhythm? Of(IReadOnlyList<double> stops)
    {
        if (stops.Count < Fewest) return null;
        double[] distances = [.. stops.Zip(stops.Skip(1), (a, b) => b - a)];
        var (period, unevenness, held) = Even(distances);
        var strewn = Null.GetOrAdd(distances.Length, Strewn);
        var evener = Array.BinarySearch(strewn, unevenness) is var at && at >= 0 ? at + 1 : ~at;
        return new PullRhythm(period, 1.96 * period * unevenness / Math.Sqrt(held), unevenness, (evener + 1.0) / (Draws + 1), stops.Count);
    }

    /// <summary>The period, the spread of distances about its multiples over it, and how many periods there are.</summary>
    private static (double Period, double Unevenness, int Periods) Even(double[] distances)
    {
        var median = Numbers.Robust.Median(distances);
        int[] held = [.. distances.Select(d => Math.Max(1, (int)Math.Round(d / median)))];
        var (all, period) = (held.Sum(), distances.Sum() / held.Sum());
        // A distance of several periods gathers their variances.
        var squares = distances.Zip(held, (d, k) => (d - k * period) * (d - k * period) / k).Sum();
        return (period, Math.Sqrt(squares / (distances.Length - 1)) / period, all);
    }

    /// <summary>Unevenness of randomly strewn stops, sorted; the same each time.</summary>
    private static double[] Strewn(int count)
    {
        var dice = new Random(count);
        double[] drawn = [.. Enumerable.Range(0, Draws).Select(_ => Even([.. Enumerable.Range(0, count).Select(_ => -Math.Log(1 - dice.NextDouble()))]).Unevenness)];
        Array.Sort(drawn);
        return drawn;
    }
}
