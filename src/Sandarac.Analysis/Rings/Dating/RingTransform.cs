namespace Sandarac.Analysis.Rings.Dating;

/// <summary>How widths are turned into values that can be compared between trees.</summary>
public enum RingTransformKind
{
    /// <summary>Logarithm of the width against the mean of five years around it.</summary>
    BailliePilcher,

    /// <summary>Logarithm of the width against the year before.</summary>
    Hollstein,
}

/// <summary>The two usual transforms. A ring that is absent (0) or not measured gives no value, nor do those whose sum or predecessor it is in.</summary>
public static class RingTransform
{
    /// <summary>Widths transformed, one value a ring; NaN where there is none.</summary>
    public static double[] Of(IReadOnlyList<double> widths, RingTransformKind kind) => kind == RingTransformKind.BailliePilcher ? BailliePilcher(widths) : Hollstein(widths);

    /// <summary>y = ln(100 x / mean of the five years around x); the first and last two have none. Baillie and Pilcher, Tree-Ring Bulletin 33 (1973) 7.</summary>
    public static double[] BailliePilcher(IReadOnlyList<double> widths) => Each(widths, i => i < 2 || i > widths.Count - 3 ? double.NaN
        : Math.Log(100 * widths[i] / ((widths[i - 2] + widths[i - 1] + widths[i] + widths[i + 1] + widths[i + 2]) / 5)));

    /// <summary>100 log10(x / the year before); the first has none. Hollstein, Mitteleuropaeische Eichenchronologie (1980).</summary>
    public static double[] Hollstein(IReadOnlyList<double> widths) => Each(widths, i => i < 1 ? double.NaN : 100 * Math.Log10(widths[i] / widths[i - 1]));

    private static double[] Each(IReadOnlyList<double> widths, Func<int, double> value) => [.. Enumerable.Range(0, widths.Count).Select(value).Select(v => double.IsFinite(v) ? v : double.NaN)];
}
