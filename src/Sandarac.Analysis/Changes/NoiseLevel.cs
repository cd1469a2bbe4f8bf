using Sandarac.Analysis.Brushwork;
using Sandarac.Analysis.Numbers;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Changes;

/// <summary>
/// How strongly the difference of two photographs of one scene is noisy, by light: variance = a + b light, as sensors have it (Foi et al., IEEE Trans. Image Processing 17 (2008) 1737).
/// From the difference without its local mean, by medians within classes of light, in the calmest paint.
/// </summary>
/// <param name="Dark">a, square of full scale.</param>
/// <param name="PerLight">b, full scale.</param>
internal readonly record struct NoiseLevel(double Dark, double PerLight)
{
    private const int Classes = 16, Samples = 400_000;

    /// <summary>Standard deviation of the local mean that is taken away, pixels.</summary>
    public const double Local = 2;

    /// <summary>Share of white noise's variance that is left without its mean by a Gaussian of that width: 1 - 2 K(0) + sum K^2.</summary>
    private const double LeftOfWhite = 1 - 2 / (2 * Math.PI * Local * Local) + 1 / (4 * Math.PI * Local * Local);

    /// <summary>Variance at so much light.</summary>
    public double Variance(double light) => Dark + PerLight * Math.Max(0, light);

    /// <summary>Fits one band.</summary>
    /// <param name="light">The baseline, smoothed.</param>
    /// <param name="rest">The difference without its local mean.</param>
    /// <param name="isCalm">Pixels that count.</param>
    public static NoiseLevel Fit(Plane light, Plane rest, Func<int, bool> isCalm)
    {
        int[] pixels = [.. Enumerable.Range(0, light.Data.Length).Where(i => isCalm(i) && float.IsFinite(rest.Data[i]) && float.IsFinite(light.Data[i]))];
        var step = Math.Max(1, pixels.Length / Samples);
        int[] sorted = [.. pixels.Where((_, k) => k % step == 0).OrderBy(i => light.Data[i])];
        var classes = new List<(double Light, double Variance)>();
        for (var k = 0; k < Classes; k++)
        {
            var own = sorted[(k * sorted.Length / Classes)..((k + 1) * sorted.Length / Classes)];
            if (own.Length < 50) continue;
            var sigma = Robust.Sigma([.. own.Select(i => (double)rest.Data[i])]);
            classes.Add((own.Average(i => (double)light.Data[i]), Math.Max(sigma * sigma / LeftOfWhite, 1e-12)));
        }
        return classes.Count == 0 ? new NoiseLevel(1e-12, 0) : Line(classes);
    }

    /// <summary>Least squares of relative errors with neither term below 0: where the free solution has one below, the other stands alone.</summary>
    private static NoiseLevel Line(List<(double Light, double Variance)> classes)
    {
        double aa = 0, ab = 0, bb = 0, ay = 0, by = 0;
        foreach (var (light, variance) in classes)
        {
            var (a, b) = (1 / variance, light / variance);
            (aa, ab, bb, ay, by) = (aa + a * a, ab + a * b, bb + b * b, ay + a, by + b);
        }
        var determinant = aa * bb - ab * ab;
        var (dark, perLight) = determinant > 1e-12 * aa * bb ? ((bb * ay - ab * by) / determinant, (aa * by - ab * ay) / determinant) : (ay / aa, 0);
        return dark < 0 ? new NoiseLevel(1e-12, by / bb) : perLight < 0 ? new NoiseLevel(ay / aa, 0) : new NoiseLevel(Math.Max(dark, 1e-12), perLight);
    }

    /// <summary>A difference without its local mean.</summary>
    public static Plane WithoutMean(Plane difference, ParallelOptions threads)
    {
        var mean = GaussianMean.Of(difference, Local, threads);
        return new Plane(difference.Width, difference.Height, [.. difference.Data.Select((v, i) => v - mean.Data[i])]);
    }
}
