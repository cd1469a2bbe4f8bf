using Sandarac.Imaging;

namespace Sandarac.Analysis.Tests.Support;

/// <summary>Planes with known truth. Noise is Box-Muller from a seeded generator.</summary>
internal static class Synthetic
{
    public static Plane Of(int width, int height, Func<double, double, double> value)
    {
        var plane = new Plane(width, height);
        for (var y = 0; y < height; y++)
            for (var x = 0; x < width; x++) plane[x, y] = (float)value(x + 0.5, y + 0.5);
        return plane;
    }

    public static Plane AddNoise(this Plane plane, double sigma, int seed)
    {
        var random = new Random(seed);
        return plane.Select(v => (float)(v + sigma * Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble())));
    }

    /// <summary>Gaussian cumulative distribution: the profile of a step blurred by a Gaussian of standard deviation 1
    /// (erf by Abramowitz and Stegun 7.1.26, absolute error below 1.5e-7).</summary>
    public static double BlurredStep(double d)
    {
        var x = Math.Abs(d) / Math.Sqrt(2);
        var t = 1 / (1 + 0.3275911 * x);
        var erf = 1 - t * (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429)))) * Math.Exp(-x * x);
        return d >= 0 ? 0.5 + erf / 2 : 0.5 - erf / 2;
    }
}
