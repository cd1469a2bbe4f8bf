using Sandarac.Analysis.Numbers;
using Sandarac.Analysis.Unexplained;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Luminescence;

/// <summary>Visible light that leaks into a photograph of luminescence, as a share of what the same place shows in visible light.</summary>
/// <param name="Share">The share.</param>
/// <param name="Uncertainty">Half-width of the 95 % interval, from leaving out one part at a time.</param>
internal sealed record LeakedLight(double Share, double Uncertainty)
{
    private const int FewestParts = 3;

    /// <summary>
    /// The slope of luminescence on visible light in the parts that luminesce least: paint that covers varnish hides its glow, and what still follows the visible light there has leaked.
    /// The deeper half of their pixels is used, without borders, by a line with Tukey's weights; the interval by leaving out one part at a time (jackknife).
    /// </summary>
    /// <returns>Null with fewer than three parts, or where visible light does not vary in them.</returns>
    public static LeakedLight? Of(Plane glow, Plane visible, Plane unexplained, IReadOnlyList<DarkPart> parts)
    {
        if (parts.Count < FewestParts) return null;
        var depths = parts.SelectMany(p => p.Pixels).Select(i => (double)unexplained.Data[i]);
        var deep = Robust.Median(depths);
        (double V, double U)[][] samples = [.. parts.Select(p => p.Pixels.Where(i => unexplained.Data[i] <= deep).Select(i => ((double)visible.Data[i], (double)glow.Data[i])).ToArray()).Where(s => s.Length >= 20)];
        if (samples.Length < FewestParts || Slope([.. samples.SelectMany(s => s)]) is not { } all) return null;
        var without = new double?[samples.Length];
        Parallel.For(0, samples.Length, k => without[k] = Slope([.. samples.Where((_, j) => j != k).SelectMany(s => s)]));
        if (without.Any(s => s is null)) return null;
        var mean = without.Average(s => s!.Value);
        return new LeakedLight(all, 1.96 * Math.Sqrt((samples.Length - 1.0) / samples.Length * without.Sum(s => (s!.Value - mean) * (s.Value - mean))));
    }

    private static double? Slope((double V, double U)[] samples)
    {
        var (weights, residuals) = (Enumerable.Repeat(1.0, samples.Length).ToArray(), new double[samples.Length]);
        var slope = 0.0;
        for (var round = 0; round < 20; round++)
        {
            var (w, v, u) = (weights.Sum(), 0.0, 0.0);
            for (var k = 0; k < samples.Length; k++) (v, u) = (v + weights[k] * samples[k].V / w, u + weights[k] * samples[k].U / w);
            var (vv, vu) = (0.0, 0.0);
            for (var k = 0; k < samples.Length; k++) (vv, vu) = (vv + weights[k] * (samples[k].V - v) * (samples[k].V - v), vu + weights[k] * (samples[k].V - v) * (samples[k].U - u));
            if (!(vv > 1e-12)) return null;
            slope = vu / vv;
            for (var k = 0; k < samples.Length; k++) residuals[k] = samples[k].U - u - slope * (samples[k].V - v);
            var sigma = Robust.Sigma(residuals);
            if (sigma < 1e-12) break;
            for (var k = 0; k < weights.Length; k++) weights[k] = Robust.Biweight(residuals[k], sigma);
        }
        return slope;
    }
}
