using Sandarac.Analysis.Numbers;

namespace Sandarac.Analysis.Brushwork;

/// <summary>How the strokes of two zones differ in one descriptor.</summary>
/// <param name="MedianA">Median in the first zone.</param>
/// <param name="MedianB">Median in the second.</param>
/// <param name="Effect">Cliff's delta, -1 to 1: how much more often a stroke of the first zone has the larger value than the smaller one, when one of each is drawn (Cliff, Psychological Bulletin 114 (1993) 494, from memory).</param>
/// <param name="Low">Lower end of its interval of about 95 %.</param>
/// <param name="High">Upper end.</param>
internal sealed record ZoneDifference(double MedianA, double MedianB, double Effect, double Low, double High);

/// <summary>Compares zones stroke by stroke. Neighbouring strokes are alike, so the interval comes from drawing whole places with all their strokes (block bootstrap), not single strokes.</summary>
internal static class ZoneComparison
{
    /// <summary>Fewest strokes in a zone, and fewest places.</summary>
    public const int FewestStrokes = 10, FewestPlaces = 3;

    private const int Draws = 1000;

    /// <summary>The difference of a descriptor; null when either zone has too few strokes or places.</summary>
    /// <param name="a">Value and place (any number that names it) of each stroke of the first zone.</param>
    /// <param name="b">Of the second.</param>
    public static ZoneDifference? Of(IReadOnlyList<(double Value, int Place)> a, IReadOnlyList<(double Value, int Place)> b)
    {
        if (!Enough(a) || !Enough(b)) return null;
        var (placesA, placesB) = (ByPlace(a), ByPlace(b));
        var dice = new Random(1);
        double[] drawn = [.. Enumerable.Range(0, Draws).Select(_ => Delta(Drawn(placesA, dice), Drawn(placesB, dice)))];
        Array.Sort(drawn);
        double[] x = [.. a.Select(v => v.Value)], y = [.. b.Select(v => v.Value)];
        return new ZoneDifference(Robust.Median(x), Robust.Median(y), Delta(x, y), drawn[(int)(0.025 * Draws)], drawn[(int)(0.975 * Draws)]);
    }

    /// <summary>Cliff's delta: 2 U / (n m) - 1 with the Mann-Whitney U of the first sample.</summary>
    internal static double Delta(double[] x, double[] y)
    {
        var sorted = (double[])y.Clone();
        Array.Sort(sorted);
        var sum = 0L;
        foreach (var v in x) sum += Count(sorted, v, false) - (sorted.Length - Count(sorted, v, true));
        return (double)sum / ((long)x.Length * y.Length);
    }

    /// <summary>How many of the sorted values are less than a value; or, with <paramref name="orEqual"/>, not more than it.</summary>
    private static int Count(double[] sorted, double v, bool orEqual)
    {
        var (low, high) = (0, sorted.Length);
        while (low < high)
        {
            var middle = (low + high) / 2;
            if (sorted[middle] < v || (orEqual && sorted[middle] == v)) low = middle + 1;
            else high = middle;
        }
        return low;
    }

    private static bool Enough(IReadOnlyList<(double Value, int Place)> zone) => zone.Count >= FewestStrokes && zone.Select(v => v.Place).Distinct().Count() >= FewestPlaces;

    private static double[][] ByPlace(IReadOnlyList<(double Value, int Place)> zone) => [.. zone.GroupBy(v => v.Place).OrderBy(g => g.Key).Select(g => g.Select(v => v.Value).ToArray())];

    private static double[] Drawn(double[][] places, Random dice) => [.. Enumerable.Range(0, places.Length).SelectMany(_ => places[dice.Next(places.Length)])];
}
