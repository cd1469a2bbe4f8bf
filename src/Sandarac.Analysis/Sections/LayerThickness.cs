using Sandarac.Analysis.Numbers;

namespace Sandarac.Analysis.Sections;

/// <summary>A layer's thickness perpendicular to its own local direction, along its whole length, pixels.</summary>
/// <param name="Values">In each column in which the layer is there and the perpendicular does not leave the section.</param>
/// <param name="Coverage">Share of the section's length in which it is.</param>
internal sealed record LayerThickness(double[] Values, double Coverage)
{
    /// <summary>Thinner than this it is not there, pixels.</summary>
    private const double Least = 0.75;

    private const int Refinements = 8;

    public double Mean { get; } = Values.Average();

    /// <summary>Standard deviation along the section.</summary>
    public double Deviation => Values.Length < 2 ? 0 : Math.Sqrt(Values.Sum(v => (v - Mean) * (v - Mean)) / (Values.Length - 1));

    public double Quantile(double share) => Robust.Quantile(Values, share);

    /// <summary>Measures between two boundaries; null when the layer is nowhere.</summary>
    /// <param name="upper">Its upper boundary.</param>
    /// <param name="lower">Its lower one, in the same columns.</param>
    public static LayerThickness? Between(Boundary upper, Boundary lower)
    {
        var (a, b) = (upper.Across, lower.Across);
        bool[] there = [.. a.Zip(b, (x, y) => y - x >= Least)];
        if (!there.Contains(true)) return null;
        var usual = Robust.Median(a.Zip(b, (x, y) => y - x).Where(t => t >= Least));
        var middle = Smoothed([.. a.Zip(b, (x, y) => (x + y) / 2)], (int)Math.Max(8, usual));
        double[] values = [.. Enumerable.Range(0, a.Length).Where(i => there[i]).Select(i => Across(a, b, middle, i))];
        double[] whole = [.. values.Where(double.IsFinite)];
        return whole.Length == 0 ? null : new LayerThickness(whole, values.Length / (double)a.Length);
    }

    /// <summary>Along the perpendicular through the middle of a column: where it meets each boundary, by repeated look-up; NaN when it leaves the section at an end first.</summary>
    private static double Across(double[] a, double[] b, double[] middle, int i)
    {
        var slope = (middle[Math.Min(middle.Length - 1, i + 1)] - middle[Math.Max(0, i - 1)]) / (Math.Min(middle.Length - 1, i + 1) - Math.Max(0, i - 1));
        var norm = Math.Sqrt(1 + slope * slope);
        var (start, up, down) = ((a[i] + b[i]) / 2, 0.0, 0.0);
        // Each step moves along the perpendicular by half of what is missing, which cannot swing to and fro where a boundary is steep.
        (up, down) = ((start - a[i]) / norm, (b[i] - start) / norm);
        for (var n = 0; n < Refinements; n++)
        {
            up += 0.5 * (start - At(a, i + slope * up / norm) - up / norm) * norm / (1 + slope * slope);
            down += 0.5 * (At(b, i - slope * down / norm) - start - down / norm) * norm / (1 + slope * slope);
        }
        var (first, last) = (i + slope * up / norm, i - slope * down / norm);
        return Math.Min(first, last) < 0 || Math.Max(first, last) > a.Length - 1 ? double.NaN : Math.Max(0, up + down);
    }

    private static double At(double[] line, double i)
    {
        var at = Math.Clamp(i, 0, line.Length - 1);
        var below = Math.Min((int)at, Math.Max(0, line.Length - 2));
        return line.Length == 1 ? line[0] : line[below] + (at - below) * (line[below + 1] - line[below]);
    }

    /// <summary>Running means over so many columns on either side, as far as there are as many on both.</summary>
    private static double[] Smoothed(double[] line, int half)
    {
        var sums = new double[line.Length + 1];
        for (var i = 0; i < line.Length; i++) sums[i + 1] = sums[i] + line[i];
        var result = new double[line.Length];
        for (var i = 0; i < line.Length; i++)
        {
            var reach = Math.Min(half, Math.Min(i, line.Length - 1 - i));
            result[i] = (sums[i + reach + 1] - sums[i - reach]) / (2 * reach + 1);
        }
        return result;
    }
}
