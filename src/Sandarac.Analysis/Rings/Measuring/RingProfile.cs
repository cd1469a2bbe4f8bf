using Sandarac.Analysis.Alignment.Pairs;
using Sandarac.Analysis.Numbers;

namespace Sandarac.Analysis.Rings.Measuring;

/// <summary>A straightened strip as profiles: one for each lane of the band, and the mean of the lanes in the middle of their order, which cracks and rays in some lanes do not reach.</summary>
/// <param name="Raw">Each lane's profile, less its level.</param>
/// <param name="Lanes">The same, smoothed.</param>
/// <param name="Mean">The trimmed mean of the smoothed ones.</param>
/// <param name="Noise">Standard error of a change of the mean over the smoothing's breadth, from how lanes differ.</param>
/// <param name="Sigma">Standard deviation of the smoothing, columns.</param>
internal sealed record RingProfile(IReadOnlyList<double[]> Raw, IReadOnlyList<double[]> Lanes, double[] Mean, double Noise, double Sigma)
{
    /// <summary>Lanes into which a band is divided.</summary>
    public const int LaneCount = 12;

    /// <summary>Part of the lanes, at either end of their order, that does not count.</summary>
    private const int TrimmedPart = 4;

    /// <summary>Lanes that count.</summary>
    public const int Counting = LaneCount - 2 * (LaneCount / TrimmedPart);

    /// <summary>Cuts a strip into lanes.</summary>
    /// <param name="strip">A straightened strip of at least <see cref="LaneCount"/> rows.</param>
    /// <param name="sigma">Standard deviation of the smoothing along the line, columns.</param>
    public static RingProfile Of(RingStrip strip, double sigma)
    {
        var taps = GaussianTaps.Of(sigma).Smooth;
        double[][] raw = [.. Enumerable.Range(0, LaneCount).Select(k => Lane(strip, k))];
        double[][] lanes = [.. raw.Select(r => Smoothing.Of(r, taps))];
        var (mean, lag) = (Middle(lanes), Math.Max(2, (int)Math.Round(3 * sigma)));
        var apart = Enumerable.Range(0, Math.Max(0, mean.Length - lag)).SelectMany(i => lanes.Select(l => l[i + lag] - l[i] - (mean[i + lag] - mean[i]))).ToList();
        return new RingProfile(raw, lanes, mean, apart.Count == 0 ? 0 : Robust.Sigma(apart) / Math.Sqrt(Counting), sigma);
    }

    /// <summary>The mean of the lanes in the middle of their order, column by column.</summary>
    public static double[] Middle(IReadOnlyList<double[]> lanes)
    {
        var (mean, sorted, trimmed) = (new double[lanes[0].Length], new double[lanes.Count], lanes.Count / TrimmedPart);
        for (var i = 0; i < mean.Length; i++)
        {
            for (var k = 0; k < sorted.Length; k++) sorted[k] = lanes[k][i];
            Array.Sort(sorted);
            for (var k = trimmed; k < sorted.Length - trimmed; k++) mean[i] += sorted[k] / (sorted.Length - 2 * trimmed);
        }
        return mean;
    }

    /// <summary>One lane: a lane that is brighter than others all along does not count as apart from them.</summary>
    private static double[] Lane(RingStrip strip, int lane)
    {
        var (from, to) = (lane * strip.Values.Height / LaneCount, (lane + 1) * strip.Values.Height / LaneCount);
        var sum = new double[strip.Values.Width];
        for (var row = from; row < to; row++)
        {
            var values = strip.Values.Row(row);
            for (var i = 0; i < sum.Length; i++) sum[i] += values[i] / (to - from);
        }
        var level = Robust.Median(sum);
        return [.. sum.Select(v => v - level)];
    }
}
