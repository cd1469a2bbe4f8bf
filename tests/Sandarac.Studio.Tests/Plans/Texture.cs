using System.Numerics;

namespace Sandarac.Studio.Tests.Plans;

/// <summary>
/// How a patch looks as a texture: the energy that a bank of Gabor filters takes from it, eight directions by five sizes with half-peak contours that touch, as B. S. Manjunath and W. Y. Ma, Texture features for browsing
/// and retrieval of image data, IEEE Trans. PAMI 18 (1996) 837-842, set them up; the filters' energies are read from the power spectrum. A distance is the mean difference of the features, each by its spread over all patches.
/// </summary>
internal static class Texture
{
    private const int Directions = 8, Sizes = 5, Side = Patch.Side;

    /// <summary>Middle frequencies of the widest and the finest filters, cycles per dot: 2.8 and 0.28 mm from line to line at 300 dots to the inch.</summary>
    private const double Lowest = 0.03, Highest = 0.3;

    private static readonly double[][] Bank = MakeBank();

    private static readonly double[] Window = MakeWindow();

    /// <summary>The features, after the eye's blur of one dot: a minute of arc at 30 cm.</summary>
    public static double[] Of(IReadOnlyList<double> light)
    {
        var (spectrum, mean) = (new Complex[Side * Side], light.Average());
        for (var i = 0; i < spectrum.Length; i++) spectrum[i] = (light[i] - mean) * Window[i];
        Transform(spectrum);
        var power = new double[spectrum.Length];
        for (var i = 0; i < power.Length; i++) power[i] = (spectrum[i].Real * spectrum[i].Real + spectrum[i].Imaginary * spectrum[i].Imaginary) / ((double)power.Length * power.Length) * Blur(i);
        return [.. Bank.Select(filter => Math.Sqrt(filter.Zip(power, (f, p) => f * p).Sum()))];
    }

    /// <summary>Mean difference by spreads.</summary>
    public static double Distance(double[] a, double[] b, double[] spread) => a.Select((v, i) => Math.Abs(v - b[i]) / spread[i]).Average();

    /// <summary>Standard deviation of each feature.</summary>
    public static double[] Spread(IReadOnlyList<double[]> all) => [.. Enumerable.Range(0, Directions * Sizes).Select(i => Math.Sqrt(all.Average(f => f[i] * f[i]) - Math.Pow(all.Average(f => f[i]), 2)))];

    private static double Frequency(int k) => (k < Side / 2 ? k : k - Side) / (double)Side;

    private static double Blur(int i) => Math.Exp(-4 * Math.PI * Math.PI * (Math.Pow(Frequency(i % Side), 2) + Math.Pow(Frequency(i / Side), 2)));

    private static double[][] MakeBank()
    {
        var step = Math.Pow(Highest / Lowest, 1.0 / (Sizes - 1));
        return [.. Enumerable.Range(0, Sizes).SelectMany(s => Enumerable.Range(0, Directions).Select(k => Filter(Lowest * Math.Pow(step, s), step, Math.PI * k / Directions)))];
    }

    private static double[] Filter(double middle, double step, double angle)
    {
        var half = Math.Sqrt(2 * Math.Log(2));
        var (along, across) = ((step - 1) * middle / ((step + 1) * half), Math.Tan(Math.PI / (2 * Directions)) * middle / half);
        var filter = new double[Side * Side];
        for (var i = 0; i < filter.Length; i++)
        {
            var (u, v) = (Frequency(i % Side), Frequency(i / Side));
            var (p, q) = (u * Math.Cos(angle) + v * Math.Sin(angle) - middle, v * Math.Cos(angle) - u * Math.Sin(angle));
            filter[i] = Math.Exp(-(p * p / (along * along) + q * q / (across * across)));
        }
        return filter;
    }

    private static double[] MakeWindow()
    {
        double Hann(int i) => 0.5 - 0.5 * Math.Cos(2 * Math.PI * i / (Side - 1));
        var window = Enumerable.Range(0, Side * Side).Select(i => Hann(i % Side) * Hann(i / Side)).ToArray();
        var rms = Math.Sqrt(window.Average(w => w * w));
        return [.. window.Select(w => w / rms)];
    }

    /// <summary>Rows, then columns.</summary>
    private static void Transform(Complex[] image)
    {
        var line = new Complex[Side];
        foreach (var (step, jump) in new[] { (1, Side), (Side, 1) })
            for (var k = 0; k < Side; k++)
            {
                for (var i = 0; i < Side; i++) line[i] = image[k * jump + i * step];
                var done = Transformed(line);
                for (var i = 0; i < Side; i++) image[k * jump + i * step] = done[i];
            }
    }

    /// <summary>J. W. Cooley, J. W. Tukey, Math. Comp. 19 (1965) 297-301, for a power of two.</summary>
    private static Complex[] Transformed(ReadOnlySpan<Complex> x)
    {
        if (x.Length == 1) return [x[0]];
        var (even, odd) = (new Complex[x.Length / 2], new Complex[x.Length / 2]);
        for (var i = 0; i < x.Length; i++) (i % 2 == 0 ? even : odd)[i / 2] = x[i];
        var (e, o, y) = (Transformed(even), Transformed(odd), new Complex[x.Length]);
        for (var k = 0; k < e.Length; k++)
        {
            var turned = Complex.FromPolarCoordinates(1, -2 * Math.PI * k / x.Length) * o[k];
            (y[k], y[k + e.Length]) = (e[k] + turned, e[k] - turned);
        }
        return y;
    }
}
