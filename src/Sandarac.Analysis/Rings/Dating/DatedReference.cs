using Sandarac.Analysis.Numbers;

namespace Sandarac.Analysis.Rings.Dating;

/// <summary>How the series of a reference are brought together, year by year.</summary>
public enum MasterMean
{
    /// <summary>Arithmetic mean of the transformed series.</summary>
    Plain,

    /// <summary>Tukey's biweight mean of the transformed series, in which a year that one tree alone had does not count (Mosteller and Tukey 1977; as is usual for ring indices: Cook 1985; from memory).</summary>
    Biweight,
}

/// <summary>A dated reference: each series is transformed by itself, then the values of a year are averaged, so that a tree's width and trend do not count.</summary>
/// <param name="Name">What it is called.</param>
/// <param name="FirstYear">Year of the first value.</param>
/// <param name="Values">Transformed values, one a year; NaN where there is none.</param>
/// <param name="Changes">Mean logarithmic change of the width against the year before; its sign is the reference's in the coefficient of parallel variation.</param>
/// <param name="Depth">How many series have a value in the year.</param>
public sealed record DatedReference(string Name, int FirstYear, IReadOnlyList<double> Values, IReadOnlyList<double> Changes, IReadOnlyList<int> Depth)
{
    private const int BiweightPasses = 10;

    /// <summary>Year of the last value.</summary>
    public int LastYear => FirstYear + Values.Count - 1;

    /// <summary>Brings dated series together.</summary>
    /// <param name="name">What it is called.</param>
    /// <param name="series">At least one; those without dates do not take part.</param>
    /// <param name="kind">The transform; a sample must be transformed alike.</param>
    /// <param name="mean">How a year's values are averaged.</param>
    /// <exception cref="Imaging.InputProblem">"reference-undated": no series has dates.</exception>
    public static DatedReference Of(string name, IReadOnlyList<RingWidths> series, RingTransformKind kind, MasterMean mean)
    {
        RingWidths[] dated = [.. series.Where(s => s.IsDated)];
        if (dated.Length == 0) throw new Imaging.InputProblem("reference-undated", name, $"{name} holds no series with dates, other than the sample itself.", "Give a reference whose years are known.");
        var (first, last) = (dated.Min(s => s.FirstYear), dated.Max(s => s.LastYear));
        var values = ByYear(dated, first, last, s => RingTransform.Of(s.Widths, kind));
        var changes = kind == RingTransformKind.Hollstein ? values : ByYear(dated, first, last, s => RingTransform.Hollstein(s.Widths));
        return new DatedReference(name, first, [.. values.Select(v => Mean(v, mean))], [.. changes.Select(v => Mean(v, mean))], [.. values.Select(v => v.Count)]);
    }

    /// <summary>Mean of values by Tukey's biweight, c = 9 median absolute deviations, begun at the median; the plain mean of fewer than four, in which nothing stands out. NaN of nothing.</summary>
    internal static double Biweight(IReadOnlyList<double> values)
    {
        if (values.Count < 4) return values.Count == 0 ? double.NaN : values.Average();
        var centre = Robust.Median(values);
        var spread = Robust.Median(values.Select(v => Math.Abs(v - centre)));
        if (spread == 0) return centre;
        for (var i = 0; i < BiweightPasses; i++)
        {
            double[] weights = [.. values.Select(v => Math.Abs(v - centre) < 9 * spread ? Math.Pow(1 - Math.Pow((v - centre) / (9 * spread), 2), 2) : 0)];
            centre = values.Zip(weights, (v, w) => v * w).Sum() / weights.Sum();
        }
        return centre;
    }

    private static double Mean(List<double> values, MasterMean mean) => mean == MasterMean.Biweight ? Biweight(values) : values.Count == 0 ? double.NaN : values.Average();

    private static List<double>[] ByYear(RingWidths[] series, int first, int last, Func<RingWidths, double[]> transform)
    {
        List<double>[] years = [.. Enumerable.Range(first, last - first + 1).Select(_ => new List<double>())];
        foreach (var s in series)
            foreach (var (value, i) in transform(s).Select((v, i) => (v, i)))
                if (double.IsFinite(value)) years[s.FirstYear - first + i].Add(value);
        return years;
    }
}
