using Sandarac.Analysis.Brushwork;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Changes;

/// <summary>
/// Brings the sharper photograph to the softer one's sharpness. A blur by a Gaussian of small variance adds half the variance times the Laplacian (the heat equation), so that the difference,
/// regressed on the Laplacian, tells by how much the later one is softer; the sharper one is then blurred by that Gaussian.
/// </summary>
internal static class SharpnessMatch
{
    private const int Rounds = 3;

    /// <summary>Standard deviation below which a blur does nothing to speak of, pixels.</summary>
    private const double LeastBlur = 0.1;

    /// <summary>Matches.</summary>
    /// <returns>The two, and the standard deviation of the blur in pixels: above 0 when the baseline was blurred, below 0 when the later one.</returns>
    public static (Plane[] Baseline, Plane[] Later, double Blur) Match(Plane[] baseline, Plane[] later, ParallelOptions threads)
    {
        var (halfVariance, soft, others) = (0.0, baseline, later);
        for (var round = 0; round < Rounds; round++)
        {
            halfVariance += Softer(GaussianMean.Of(soft, 1, threads), GaussianMean.Of(others, 1, threads));
            soft = Blurred(baseline, halfVariance, threads);
            others = Blurred(later, -halfVariance, threads);
        }
        return (soft, others, Math.Sign(halfVariance) * Math.Sqrt(2 * Math.Abs(halfVariance)));
    }

    private static Plane[] Blurred(Plane[] bands, double halfVariance, ParallelOptions threads) =>
        Math.Sqrt(2 * Math.Max(0, halfVariance)) is >= LeastBlur and var sigma ? GaussianMean.Of(bands, sigma, threads) : bands;

    /// <summary>Half the variance by which the second is softer; pixels whose difference two in a hundred exceed are left out, being changed.</summary>
    private static double Softer(Plane[] first, Plane[] second)
    {
        var (width, sum, weight) = (first[0].Width, 0.0, 0.0);
        for (var b = 0; b < first.Length; b++)
        {
            var (p, q) = (first[b].Data, second[b].Data);
            var step = Math.Max(1, p.Length / 200_000);
            var limit = Numbers.Robust.Quantile(Enumerable.Range(0, p.Length / step).Select(k => (double)Math.Abs(q[k * step] - p[k * step])).Where(double.IsFinite), 0.98);
            for (var i = width + 1; i < p.Length - width - 1; i++)
            {
                var d = (double)q[i] - p[i];
                if (!(Math.Abs(d) <= limit) || i % width == 0 || i % width == width - 1) continue;
                var laplacian = (p[i - 1] + p[i + 1] + p[i - width] + p[i + width] - 4.0 * p[i] + q[i - 1] + q[i + 1] + q[i - width] + q[i + width] - 4.0 * q[i]) / 2;
                if (!double.IsFinite(laplacian)) continue;
                var w = 1 / (0.01 + Math.Abs(p[i]));
                (sum, weight) = (sum + w * laplacian * d, weight + w * laplacian * laplacian);
            }
        }
        return weight > 0 ? sum / weight : 0;
    }
}
