using Sandarac.Imaging;

namespace Sandarac.Analysis.Rings.Dating;

/// <summary>How samples are compared with references.</summary>
public sealed record CrossDatingSettings
{
    /// <summary>Fewest years in which both have a transformed value; shorter overlaps are not looked at.</summary>
    public int MinimumOverlap { get; init; } = 40;

    /// <summary>The transform.</summary>
    public RingTransformKind Transform { get; init; } = RingTransformKind.BailliePilcher;

    /// <summary>Degrees of freedom of t.</summary>
    public TConvention Convention { get; init; } = TConvention.Pairs;

    /// <summary>How a reference's series are brought together.</summary>
    public MasterMean Mean { get; init; } = MasterMean.Biweight;
}

/// <summary>Slides a sample along a reference, position by position.</summary>
public static class CrossDating
{
    /// <summary>Fewest and most years of overlap that may be asked for.</summary>
    public const int LeastOverlap = 15, MostOverlap = 1000;

    /// <summary>Every position with enough overlap, the highest t first.</summary>
    /// <param name="sample">Its own dates do not count.</param>
    /// <param name="reference">The dated reference, made with the same transform.</param>
    /// <param name="settings">Transform, convention and overlap.</param>
    /// <returns>Empty where no position has the overlap.</returns>
    /// <exception cref="InputProblem">"minimum-overlap": not a permitted overlap.</exception>
    public static IReadOnlyList<CrossMatch> Slide(RingWidths sample, DatedReference reference, CrossDatingSettings settings)
    {
        if (settings.MinimumOverlap is < LeastOverlap or > MostOverlap)
            throw new InputProblem("minimum-overlap", "minimum-overlap", $"An overlap of {settings.MinimumOverlap} years decides nothing or is more than any sample has.", $"Give {LeastOverlap} to {MostOverlap} years.");
        var (values, changes) = (RingTransform.Of(sample.Widths, settings.Transform), RingTransform.Hollstein(sample.Widths));
        double[] masterValues = [.. reference.Values], masterChanges = [.. reference.Changes];
        var matches = new List<CrossMatch>();
        for (var at = settings.MinimumOverlap - values.Length; at <= masterValues.Length - settings.MinimumOverlap; at++)
        {
            var (from, to) = (Math.Max(0, -at), Math.Min(values.Length, masterValues.Length - at));
            var (pairs, r) = Correlation(values.AsSpan(from..to), masterValues.AsSpan((from + at)..(to + at)));
            if (pairs < settings.MinimumOverlap || double.IsNaN(r)) continue;
            var parallel = ParallelVariation.Of(changes.AsSpan(from..to), masterChanges.AsSpan((from + at)..(to + at)));
            matches.Add(new CrossMatch(reference.FirstYear + at + values.Length - 1, pairs, r, TValue.Of(r, pairs, settings.Convention), parallel));
        }
        return [.. matches.OrderByDescending(m => m.T).ThenBy(m => m.EndYear)];
    }

    /// <summary>Pearson's r over the positions where both have a value; NaN when one of them does not vary.</summary>
    internal static (int Pairs, double R) Correlation(ReadOnlySpan<double> a, ReadOnlySpan<double> b)
    {
        var (n, meanA, meanB, varianceA, varianceB, both) = (0, 0.0, 0.0, 0.0, 0.0, 0.0);
        for (var i = 0; i < a.Length; i++)
        {
            if (double.IsNaN(a[i]) || double.IsNaN(b[i])) continue;
            n++;
            var (da, db) = (a[i] - meanA, b[i] - meanB);
            (meanA, meanB) = (meanA + da / n, meanB + db / n);
            (varianceA, varianceB, both) = (varianceA + da * (a[i] - meanA), varianceB + db * (b[i] - meanB), both + da * (b[i] - meanB));
        }
        return (n, varianceA > 0 && varianceB > 0 ? Math.Clamp(both / Math.Sqrt(varianceA * varianceB), -1, 1) : double.NaN);
    }
}
