namespace Sandarac.Analysis.Sections.Particles;

/// <summary>Quantiles of grain diameters with bootstrap intervals.</summary>
/// <param name="Value">The quantile.</param>
/// <param name="Lower">Lower end of the 95 % interval.</param>
/// <param name="Upper">Upper end.</param>
internal sealed record GrainSize(double Value, double Lower, double Upper)
{
    private const int Resamples = 400;

    /// <summary>Distance to the farther end.</summary>
    public double Uncertainty => Math.Max(Upper - Value, Value - Lower);

    /// <summary>Diameter below which lies this share of the grains, or of their area; interval by drawing as many grains with replacement (Efron, Annals of Statistics 7 (1979) 1), percentiles.</summary>
    /// <param name="diameters">The grains' diameters.</param>
    /// <param name="share">0 to 1.</param>
    /// <param name="byArea">Whether each grain counts by its area.</param>
    public static GrainSize Of(IReadOnlyList<double> diameters, double share, bool byArea)
    {
        double[] sorted = [.. diameters.Order()];
        var weights = new double[sorted.Length];
        Array.Fill(weights, 1);
        var value = Quantile(sorted, weights, share, byArea);
        var drawn = new double[Resamples];
        // A fixed sequence (Marsaglia's xorshift, Journal of Statistical Software 8 (2003) 14): the same grains give the same interval.
        var state = 0x9E3779B97F4A7C15UL;
        for (var s = 0; s < Resamples; s++)
        {
            Array.Clear(weights);
            for (var i = 0; i < sorted.Length; i++)
            {
                state ^= state << 13;
                state ^= state >> 7;
                state ^= state << 17;
                weights[(int)((state >> 11) * (1.0 / (1UL << 53)) * sorted.Length)]++;
            }
            drawn[s] = Quantile(sorted, weights, share, byArea);
        }
        return new GrainSize(value, Numbers.Robust.Quantile(drawn, 0.025), Numbers.Robust.Quantile(drawn, 0.975));
    }

    /// <summary>Weighted quantile: each grain stands at the middle of its weight, straight lines between.</summary>
    private static double Quantile(double[] sorted, double[] weights, double share, bool byArea)
    {
        double Weight(int i) => weights[i] * (byArea ? sorted[i] * sorted[i] : 1);
        var total = 0.0;
        for (var i = 0; i < sorted.Length; i++) total += Weight(i);
        var (sum, lastAt, last) = (0.0, double.NaN, double.NaN);
        for (var i = 0; i < sorted.Length; i++)
        {
            var w = Weight(i);
            if (w == 0) continue;
            var at = (sum + w / 2) / total;
            if (at >= share) return double.IsNaN(last) ? sorted[i] : last + (share - lastAt) / (at - lastAt) * (sorted[i] - last);
            (sum, lastAt, last) = (sum + w, at, sorted[i]);
        }
        return last;
    }
}
