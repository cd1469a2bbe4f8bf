using Sandarac.Analysis.Alignment.Pairs;
using Sandarac.Analysis.Numbers;

namespace Sandarac.Analysis.Rings.Measuring;

/// <summary>A straightened strip as profiles: one for each lane of the band, and the mean of the lanes in the middle of their order, which cracks and rays in some lanes do not reach.</summary>
/// <param name="Lanes">Each lane's profile, smoothed.</param>
/// <param name="Mean">Their trimmed mean.</param>
/// <param name="Smoother">The same smoothed once more as much.</param>
/// <param name="Noise">Standard error of a change of the mean over the smoothing's breadth, from how lanes differ.</param>
/// <param name="Sigma">Standard deviation of the smoothing, columns.</param>
internal sealed record RingProfile(IReadOnlyList<double[]> Lanes, double[] Mean, double[] Smoother, double Noise, double Sigma)
{
    /// <summary>Lanes into which a band is divided.</summary>
    public const int LaneCount = 12;

    /// <summary>Share of the lanes, at either end of their order, that does not count.</summary>
    private const int Trimmed = LaneCount / 4;

    /// <summary>Cuts a strip into lanes.</summary>
    /// <param name="strip">A straightened strip of at least <see cref="LaneCount"/> rows.</param>
    /// <param name="sigma">Standard deviation of the smoothing along the line, columns.</param>
    public static RingProfile Of(RingStrip strip, double sigma)
    {
        var taps = GaussianTaps.Of(sigma).Smooth;
        double[][] lanes = [.. Enumerable.Range(0, LaneCount).Select(k => Smoothing.Of(Lane(strip, k), taps))];
        // A lane that is brighter than others all along does not count as apart from them.
        foreach (var lane in lanes)
        {
            var level = Robust.Median(lane);
            for (var i = 0; i < lane.Length; i++) lane[i] -= level;
        }
        var (mean, lag, sorted) = (new double[strip.Values.Width], Math.Max(2, (int)Math.Round(3 * sigma)), new double[LaneCount]);
        for (var i = 0; i < mean.Length; i++)
        {
            for (var k = 0; k < LaneCount; k++) sorted[k] = lanes[k][i];
            Array.Sort(sorted);
            mean[i] = sorted.AsSpan(Trimmed, LaneCount - 2 * Trimmed).ToArray().Average();
        }
        var apart = Enumerable.Range(0, Math.Max(0, mean.Length - lag)).SelectMany(i => lanes.Select(l => l[i + lag] - l[i] - (mean[i + lag] - mean[i]))).ToList();
        return new RingProfile(lanes, mean, Smoothing.Of(mean, taps), apart.Count == 0 ? 0 : Robust.Sigma(apart) / Math.Sqrt(LaneCount - 2 * Trimmed), sigma);
    }

    private static double[] Lane(RingStrip strip, int lane)
    {
        var (from, to) = (lane * strip.Values.Height / LaneCount, (lane + 1) * strip.Values.Height / LaneCount);
        var sum = new double[strip.Values.Width];
        for (var row = from; row < to; row++)
        {
            var values = strip.Values.Row(row);
            for (var i = 0; i < sum.Length; i++) sum[i] += values[i] / (to - from);
        }
        return sum;
    }
}
