using Sandarac.Analysis.Numbers;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Changes;

/// <summary>
/// How widely a value spreads where the picture has so much contrast about it: registration, sharpness and the slant of light are never quite the same twice, and all three show as errors in
/// proportion to contrast. Measured, class by class, not modelled; never falls as contrast rises.
/// </summary>
internal sealed class SpreadByContrast
{
    /// <summary>Share of values within the spread's reach: beyond the middle, so that long tails count, not so far that changes do.</summary>
    private const double Within = 0.97;

    /// <summary>Normal quantile of the same two-sided share.</summary>
    private const double NormalReach = 2.1700903776;

    private const int Samples = 1_000_000, Fewest = 100;

    private static readonly double[] Bounds = [.. Enumerable.Range(0, 18).Select(k => k / 18.0 * 0.95), 0.95, 0.97, 0.98, 0.99, 0.995, 1];

    private readonly double[] _contrast, _spread;

    private SpreadByContrast(double[] contrast, double[] spread) => (_contrast, _spread) = (contrast, spread);

    /// <summary>Spread in the calmest class.</summary>
    public double Calm => _spread[0];

    /// <summary>Measures.</summary>
    public static SpreadByContrast Of(Plane contrast, Plane values)
    {
        int[] pixels = [.. Enumerable.Range(0, values.Data.Length).Where(i => float.IsFinite(values.Data[i]) && float.IsFinite(contrast.Data[i]))];
        var step = Math.Max(1, pixels.Length / Samples);
        int[] sorted = [.. pixels.Where((_, k) => k % step == 0).OrderBy(i => contrast.Data[i])];
        var (at, spread, most) = (new List<double>(), new List<double>(), 0.0);
        for (var k = 0; k + 1 < Bounds.Length; k++)
        {
            var own = sorted[(int)(Bounds[k] * sorted.Length)..(int)(Bounds[k + 1] * sorted.Length)];
            if (own.Length < Fewest) continue;
            most = Math.Max(most, Robust.Quantile(own.Select(i => (double)Math.Abs(values.Data[i])), Within) / NormalReach);
            at.Add(own.Average(i => (double)contrast.Data[i]));
            spread.Add(most);
        }
        return at.Count == 0 ? new SpreadByContrast([0], [double.PositiveInfinity]) : new SpreadByContrast([.. at], [.. spread]);
    }

    /// <summary>The spread at a contrast: linear between classes, constant beyond.</summary>
    public double At(double contrast)
    {
        var above = Array.BinarySearch(_contrast, contrast);
        if (above < 0) above = ~above;
        if (above == 0) return _spread[0];
        if (above == _contrast.Length) return _spread[^1];
        var t = (contrast - _contrast[above - 1]) / (_contrast[above] - _contrast[above - 1]);
        return _spread[above - 1] + t * (_spread[above] - _spread[above - 1]);
    }
}
