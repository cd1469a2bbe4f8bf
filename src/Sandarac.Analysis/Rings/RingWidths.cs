namespace Sandarac.Analysis.Rings;

/// <summary>The ring widths of one sample, one a year from the oldest outward.</summary>
/// <param name="Id">What the sample is called.</param>
/// <param name="FirstYear">
/// Year of the first ring as its file states it; with <paramref name="IsDated"/> false a running number. Years before the first count 0, -1, -2, ... as the open exchange format has them: a year 0 exists.
/// </param>
/// <param name="Widths">Widths in mm, 0 for a ring that is locally absent, NaN for one that was not measured.</param>
/// <param name="IsDated">Whether the years are calendar years.</param>
public sealed record RingWidths(string Id, int FirstYear, IReadOnlyList<double> Widths, bool IsDated = true)
{
    /// <summary>Year of the last ring.</summary>
    public int LastYear => FirstYear + Widths.Count - 1;

    /// <summary>The width of a year; NaN outside the series.</summary>
    public double this[int year] => year >= FirstYear && year <= LastYear ? Widths[year - FirstYear] : double.NaN;

    /// <summary>The same rings with running numbers instead of years.</summary>
    public RingWidths WithoutDates() => this with { FirstYear = 1, IsDated = false };

    /// <summary>The same rings, the last of them grown in a year.</summary>
    public RingWidths EndingIn(int year) => this with { FirstYear = year - Widths.Count + 1, IsDated = true };

    /// <summary>Whether another's rings, width by width, are a stretch of these.</summary>
    public bool Holds(RingWidths other) => Enumerable.Range(0, Math.Max(0, Widths.Count - other.Widths.Count + 1)).Any(from => other.Widths.Select((w, i) => w.Equals(Widths[from + i])).All(isSame => isSame));
}
