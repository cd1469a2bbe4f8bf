using Sandarac.Analysis.Alignment.Pairs;

namespace Sandarac.Analysis.Brushwork;

/// <summary>
/// Places along a pull where the hand stopped and the brush left a ridge across. A ridge counts when it stands out more than dents of the same size do: noise makes as many
/// dents as ridges, so the dents show how many of the ridges are noise; at most a tenth may be.
/// </summary>
internal static class Stops
{
    /// <summary>Smoothing along the pull; half of the length within which a ridge is the highest, mm.</summary>
    private const double SmoothMm = 0.3, AloneMm = 1.5;

    private const double FalseShare = 0.1;

    /// <summary>The stops, mm from the start, in order.</summary>
    public static IReadOnlyList<double> Of(Pull pull)
    {
        if (!pull.SaysAnything) return [];
        var even = Smoothed(Detrended(Filled(pull.Values)), SmoothMm / pull.StepMm);
        var alone = Math.Max(1, (int)(AloneMm / pull.StepMm));
        var ridges = Crests(even, alone).OrderByDescending(c => c.Rise).ThenBy(c => c.At).ToList();
        double[] dents = [.. Crests([.. even.Select(v => -v)], alone).Select(c => c.Rise)];
        var kept = 0;
        for (var m = 1; m <= ridges.Count; m++)
            if (dents.Count(d => d >= ridges[m - 1].Rise) <= FalseShare * m) kept = m;
        return [.. ridges.Take(kept).Select(c => c.At * pull.StepMm).Order()];
    }

    /// <summary>Highest places within reach on both sides, and how far they rise above the higher of the lowest places beside them.</summary>
    private static IEnumerable<(double Rise, int At)> Crests(double[] values, int alone)
    {
        for (var k = alone / 2; k < values.Length - alone / 2; k++)
        {
            var before = values[Math.Max(0, k - alone)..(k + 1)];
            var after = values[k..Math.Min(values.Length, k + alone + 1)];
            // Of equal neighbours the first counts.
            if (values[k] > before.SkipLast(1).DefaultIfEmpty(double.NegativeInfinity).Max() && values[k] >= after.Max()) yield return (values[k] - Math.Max(before.Min(), after.Min()), k);
        }
    }

    /// <summary>Gaps are bridged by a straight line, ends by their nearest value.</summary>
    private static double[] Filled(double[] values)
    {
        int[] known = [.. Enumerable.Range(0, values.Length).Where(k => double.IsFinite(values[k]))];
        var result = (double[])values.Clone();
        for (var (k, next) = (0, 0); k < values.Length; k++)
        {
            if (double.IsFinite(values[k])) continue;
            while (next < known.Length && known[next] < k) next++;
            var (a, b) = (known[Math.Max(0, next - 1)], known[Math.Min(next, known.Length - 1)]);
            result[k] = a >= k || b <= k || a == b ? values[a >= k ? a : b <= k ? b : a] : values[a] + (values[b] - values[a]) * (k - a) / (b - a);
        }
        return result;
    }

    /// <summary>What a parabola leaves.</summary>
    private static double[] Detrended(double[] values)
    {
        var matrix = MathNet.Numerics.Fit.Polynomial([.. Enumerable.Range(0, values.Length).Select(k => 2.0 * k / values.Length - 1)], values, 2);
        return [.. values.Select((v, k) => v - MathNet.Numerics.Polynomial.Evaluate(2.0 * k / values.Length - 1, matrix))];
    }

    private static double[] Smoothed(double[] values, double sigma)
    {
        var taps = GaussianTaps.Of(Math.Max(sigma, 0.3)).Smooth;
        var radius = taps.Length / 2;
        return [.. Enumerable.Range(0, values.Length).Select(k => Enumerable.Range(-radius, taps.Length).Sum(j => taps[j + radius] * values[Math.Clamp(k + j, 0, values.Length - 1)]))];
    }
}
