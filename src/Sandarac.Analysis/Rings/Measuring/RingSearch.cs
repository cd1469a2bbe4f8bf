using MathNet.Numerics.Distributions;
using Sandarac.Analysis.Numbers;

namespace Sandarac.Analysis.Rings.Measuring;

/// <summary>
/// Finds the ends of rings on a profile that rises where latewood ends: a rise counts when it is high against noise and against the rises around it, after a fall as high, and is seen in most lanes of the band. Ours.
/// </summary>
internal sealed class RingSearch(RingProfile profile, IReadOnlyList<double> slopes)
{
    /// <summary>Least rise in standard errors, and as a share of the rises around; least share of lanes that show it; rises on either side that are its surroundings.</summary>
    private const double LeastErrors = 6, LeastShare = 0.4, LeastLanes = 0.6;
    private const int Around = 8, Passes = 3;

    /// <summary>A lane shows a step when it rises by so much of the mean's.</summary>
    private const double LaneShare = 0.25;

    /// <summary>Least mean step of a boundary's lanes in its standard errors; chance, over all places of the line, that lanes which have nothing in common rise together as they do at half of the boundaries.</summary>
    private const double LeastLaneErrors = 3, GreatestChance = 0.01;

    private readonly double[] _mean = profile.Mean;

    /// <summary>What half of the boundaries must reach: Student's t, Bonferroni over the places that the smoothing leaves apart.</summary>
    private double LeastMedianErrors { get; } = -StudentT.InvCDF(0, 1, RingProfile.LaneCount - 1, GreatestChance / Math.Max(1, profile.Mean.Length / (2 * profile.Sigma)));

    /// <summary>The boundaries, in their order along the line; none where lanes do not rise together better than blotches do.</summary>
    public IReadOnlyList<RingBoundary> Find()
    {
        var least = new double[_mean.Length];
        Array.Fill(least, Math.Max(LeastErrors * profile.Noise, 1e-9));
        var floor = least[0];
        for (var pass = 0; pass < Passes && Rises(least) is { Count: > 0 } rises; pass++) Array.Copy(Thresholds(rises, floor), least, least.Length);
        RingBoundary[] found = [.. Rises(least).Select(Boundary).OfType<RingBoundary>()];
        return Robust.Median(found.Select(b => b.LaneErrors)) >= LeastMedianErrors ? Placed(found) : [];
    }

    /// <summary>Rises from a low to a high, each and the fall before it as high as demanded where it ends.</summary>
    private List<(int Low, int High)> Rises(double[] least)
    {
        var (rises, low, high, isRising) = (new List<(int, int)>(), 0, 0, false);
        for (var i = 1; i < _mean.Length; i++)
            if (isRising)
            {
                if (_mean[i] > _mean[high]) high = i;
                else if (_mean[high] - _mean[i] >= least[i])
                {
                    rises.Add((low, high));
                    (isRising, low) = (false, i);
                }
            }
            else if (_mean[i] < _mean[low]) low = i;
            else if (_mean[i] - _mean[low] >= least[i]) (isRising, high) = (true, i);
        if (isRising) rises.Add((low, high));
        return rises;
    }

    /// <summary>What is demanded in each column: a share of the heights around, high ones weighing more, so that many small ripples do not lower it.</summary>
    private double[] Thresholds(List<(int Low, int High)> rises, double floor)
    {
        double[] heights = [.. rises.Select(r => _mean[r.High] - _mean[r.Low])];
        double[] demanded = [.. heights.Select((_, i) =>
        {
            var near = heights[Math.Max(0, i - Around)..Math.Min(heights.Length, i + Around + 1)];
            return Math.Max(floor, LeastShare * near.Sum(h => h * h) / near.Sum());
        })];
        var (least, at) = (new double[_mean.Length], 0);
        for (var i = 0; i < least.Length; i++)
        {
            while (at + 1 < rises.Count && Math.Abs(rises[at + 1].Low - i) < Math.Abs(rises[at].Low - i)) at++;
            least[i] = demanded[at];
        }
        return least;
    }

    private RingBoundary? Boundary((int Low, int High) rise)
    {
        if (Steepest(_mean, rise.Low, rise.High) is not { } along) return null;
        var (at, reach) = ((int)Math.Round(along), Math.Max(2, (int)Math.Round(2 * profile.Sigma)));
        double Step(double[] of) => of[Math.Min(at + reach, of.Length - 1)] - of[Math.Max(at - reach, 0)];
        var step = Step(_mean);
        var errors = StepErrors([.. profile.Lanes.Select(Step)]);
        if (!(errors >= LeastLaneErrors)) return null;
        var confidence = (double)profile.Lanes.Count(l => Step(l) > LaneShare * step) / RingProfile.LaneCount;
        return confidence < LeastLanes ? null : new RingBoundary(along, 0, slopes[at], _mean[rise.High] - _mean[rise.Low], confidence, errors, Gradient(at) > FallBefore(rise.Low));
    }

    /// <summary>Boundaries where they lay before all blur. A place half way to the next boundary is not believed: the steepest place stays, and its interval reaches there.</summary>
    private RingBoundary[] Placed(RingBoundary[] found)
    {
        double[] near = [double.NegativeInfinity, .. found.Select(b => b.Along), double.PositiveInfinity];
        var places = new RingPlaces(profile, near[1..^1]);
        return [.. found.Select((b, i) =>
        {
            var (along, uncertainty) = places.Of(b.Along);
            var isBelieved = Math.Abs(along - b.Along) < Math.Min(b.Along - near[i], near[i + 2] - b.Along) / 2;
            return b with { Along = Math.Clamp((isBelieved ? along : b.Along) + 0.5, 0, _mean.Length), Uncertainty = isBelieved ? uncertainty : Math.Max(uncertainty, Math.Abs(along - b.Along)) };
        })];
    }

    /// <summary>The mean of the lanes' steps in its standard errors.</summary>
    private static double StepErrors(double[] steps)
    {
        var mean = steps.Average();
        return mean / Math.Sqrt(steps.Sum(s => (s - mean) * (s - mean)) / (steps.Length - 1) / steps.Length);
    }

    /// <summary>Where values rise most steeply between two columns, between the samples by a parabola; null where they do not rise.</summary>
    private static double? Steepest(double[] values, int low, int high)
    {
        double Slope(int i) => values[Math.Min(i + 1, values.Length - 1)] - values[Math.Max(i - 1, 0)];
        var best = Math.Max(1, low);
        for (var i = best; i <= Math.Min(high, values.Length - 2); i++)
            if (Slope(i) > Slope(best)) best = i;
        if (!(Slope(best) > 0)) return null;
        var (left, middle, right) = (Slope(best - 1), Slope(best), Slope(best + 1));
        var bend = left - 2 * middle + right;
        return best + (bend < 0 ? Math.Clamp((left - right) / (2 * bend), -0.5, 0.5) : 0);
    }

    private double Gradient(int i) => (_mean[Math.Min(i + 1, _mean.Length - 1)] - _mean[Math.Max(i - 1, 0)]) / 2;

    /// <summary>Steepest fall on the way down to a low.</summary>
    private double FallBefore(int low)
    {
        var fall = 0.0;
        for (var i = low; i > 0 && _mean[i - 1] >= _mean[i] - profile.Noise; i--) fall = Math.Max(fall, -Gradient(i));
        return fall;
    }
}
