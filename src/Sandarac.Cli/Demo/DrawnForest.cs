using MathNet.Numerics.Distributions;
using Sandarac.Analysis.Rings;
using Sandarac.Specimen;

namespace Sandarac.Cli.Demo;

/// <summary>
/// Ring widths of oaks: the logarithm of a width is its mean's, a share of the year's weather that all have, of what its stand has, its tree and its radius. The figures are of the order that oaks show, chosen; no tree is imitated.
/// </summary>
internal static class DrawnForest
{
    private const int FirstYear = 1420, LastYear = 1800, TreesOfAStand = 8, RingsOfATree = 190;

    /// <summary>Mean widths, mm. The board's gives as many rings as the grain that is drawn on the panel's face.</summary>
    private const double BoardMm = 2.3, ReferenceMm = 1.6;

    /// <summary>Standard deviations of the logarithm, and the share of a year that lasts into the next.</summary>
    private const double OfAll = 0.20, OfTheStand = 0.10, OfTheTree = 0.17, OfTheRadius = 0.06, Lasting = 0.3;

    private static readonly double[] Weather = Years(1, OfAll);

    /// <summary>Dated trees of a stand that together span all years.</summary>
    /// <param name="stand">0 or 1.</param>
    public static IReadOnlyList<RingWidths> Reference(int stand) => [.. Enumerable.Range(0, TreesOfAStand).Select(tree =>
    {
        var first = FirstYear + tree * (LastYear - FirstYear + 1 - RingsOfATree) / (TreesOfAStand - 1);
        return Radius($"ST{stand + 1}TR{tree + 1}", stand, 10 * stand + tree, 0, first, first + RingsOfATree - 1, ReferenceMm);
    })];

    /// <summary>Boards without dates: both ends of the panel, of one tree felled before it was painted, and a later batten with few rings.</summary>
    public static IReadOnlyList<RingWidths> Boards()
    {
        var rings = (int)(SpecimenPainting.HeightMm / BoardMm);
        return [.. new[] { Radius("LEFT", 0, 100, 0, 1623 - rings, 1622, BoardMm), Radius("RIGHT", 0, 100, 1, 1628 - rings, 1619, BoardMm), Radius("BATTEN", 1, 101, 0, 1735, 1768, BoardMm) }.Select(b => b.WithoutDates())];
    }

    private static RingWidths Radius(string name, int stand, int tree, int radius, int first, int last, double mm)
    {
        double[][] parts = [Weather, Years(2 + stand, OfTheStand), Years(1000 + tree, OfTheTree), Years(10_000 + 10 * tree + radius, OfTheRadius)];
        return new RingWidths(name, first, [.. Enumerable.Range(first - FirstYear, last - first + 1).Select(i => Math.Round(mm * Math.Exp(parts.Sum(p => p[i])), 2))]);
    }

    /// <summary>A first-order autoregressive walk with this standard deviation, a value a year.</summary>
    private static double[] Years(int seed, double deviation)
    {
        var (random, years) = (new Random(seed), new double[LastYear - FirstYear + 1]);
        for (var i = 1; i < years.Length; i++) years[i] = Lasting * years[i - 1] + deviation * Math.Sqrt(1 - Lasting * Lasting) * Normal.Sample(random, 0, 1);
        return years;
    }
}
