using Sandarac.Analysis.Brushwork;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Changes;

/// <summary>
/// The noise of a difference of two photographs, estimated from these two alone: the sensors' part by light (<see cref="NoiseLevel"/>), and a part along the local covariance of the picture's
/// bands, whose size is measured by contrast (<see cref="SpreadByContrast"/>). The difference divided by the Cholesky factor of its covariance has variance one in every band.
/// </summary>
internal sealed class DifferenceNoise
{
    /// <summary>Standard deviations of what counts as detail, and of the window in which its covariance is taken, pixels.</summary>
    private const double Detail = 3, Window = 1.5;

    /// <summary>Share of the face that is taken as calm.</summary>
    private const double CalmShare = 0.3;

    private readonly Plane[] _light;

    private DifferenceNoise(NoiseLevel[] levels, Plane[] light, Plane[] whitened) => (Levels, _light, Whitened) = (levels, light, whitened);

    /// <summary>The sensors' noise, band by band: both photographs together.</summary>
    public NoiseLevel[] Levels { get; }

    /// <summary>The difference in units of its noise, band by band.</summary>
    public Plane[] Whitened { get; }

    /// <summary>Variance of the sensors' noise in a band at a pixel.</summary>
    public double Variance(int band, int pixel) => Levels[band].Variance(_light[band].Data[pixel]);

    /// <summary>Light about a pixel.</summary>
    public double Light(int band, int pixel) => _light[band].Data[pixel];

    /// <summary>Estimates.</summary>
    public static DifferenceNoise Of(Plane[] baseline, Plane[] later, ParallelOptions threads)
    {
        var (bands, light) = (baseline.Length, GaussianMean.Of(baseline, 1, threads));
        Plane[] difference = [.. baseline.Select((b, k) => new Plane(b.Width, b.Height, [.. b.Data.Select((v, i) => later[k].Data[i] - v)]))];
        Plane[] rest = [.. difference.Select(d => NoiseLevel.WithoutMean(d, threads))];
        var covariance = Covariance(baseline, threads);
        var activity = Sum(covariance, light, (c, v) => c / Math.Max(v, 0.005));
        var calm = Numbers.Robust.Quantile(activity.Data.Where((v, i) => i % 7 == 0 && float.IsFinite(v)).Select(v => (double)v), CalmShare);
        NoiseLevel[] levels = [.. Enumerable.Range(0, bands).Select(b => NoiseLevel.Fit(light[b], rest[b], i => activity.Data[i] <= calm))];
        var noise = new DifferenceNoise(levels, light, [.. difference.Select(d => new Plane(d.Width, d.Height))]);
        var (contrast, along) = (new Plane(light[0].Width, light[0].Height), new Plane(light[0].Width, light[0].Height));
        Parallel.For(0, contrast.Data.Length / contrast.Width, threads, y =>
        {
            for (var i = y * contrast.Width; i < (y + 1) * contrast.Width; i++) (contrast.Data[i], along.Data[i]) = noise.Along(covariance, rest, i);
        });
        var spread = SpreadByContrast.Of(contrast, along);
        Parallel.For(0, contrast.Height, threads, y =>
        {
            for (var i = y * contrast.Width; i < (y + 1) * contrast.Width; i++) noise.Whiten(covariance, difference, contrast.Data[i], spread, i);
        });
        return noise;
    }

    /// <summary>Contrast in units of the sensors' noise, and the difference along it in the same units: its variance is 1 and what contrast adds.</summary>
    private (float Contrast, float Along) Along(Plane[][] covariance, Plane[] rest, int i)
    {
        var (square, product) = (0.0, 0.0);
        for (var b = 0; b < rest.Length; b++)
        {
            var (c, v) = ((double)covariance[b][b].Data[i], Variance(b, i));
            (square, product) = (square + c / v, product + rest[b].Data[i] * Math.Sqrt(Math.Max(0, c)) / v);
        }
        return ((float)Math.Sqrt(square), (float)(product / Math.Sqrt(square + 1e-12)));
    }

    private void Whiten(Plane[][] covariance, Plane[] difference, double contrast, SpreadByContrast spread, int i)
    {
        var bands = difference.Length;
        Span<double> factor = stackalloc double[bands * bands], z = stackalloc double[bands];
        var share = contrast > 0 ? Math.Max(0, Math.Pow(spread.At(contrast), 2) - 1) / (contrast * contrast) : 0;
        for (var r = 0; r < bands; r++)
        {
            var value = (double)difference[r].Data[i];
            for (var c = 0; c <= r; c++)
            {
                var sum = share * covariance[Math.Min(r, c)][Math.Max(r, c)].Data[i] + (r == c ? Variance(r, i) : 0);
                for (var k = 0; k < c; k++) sum -= factor[r * bands + k] * factor[c * bands + k];
                factor[r * bands + c] = r == c ? Math.Sqrt(sum) : sum / factor[c * bands + c];
            }
            for (var c = 0; c < r; c++) value -= factor[r * bands + c] * z[c];
            z[r] = value / factor[r * bands + r];
            Whitened[r].Data[i] = (float)z[r];
        }
    }

    /// <summary>Covariance of the bands' detail about each pixel; the upper half.</summary>
    private static Plane[][] Covariance(Plane[] bands, ParallelOptions threads)
    {
        var means = GaussianMean.Of(bands, Detail, threads);
        Plane[] detail = [.. bands.Select((b, k) => new Plane(b.Width, b.Height, [.. b.Data.Select((v, i) => v - means[k].Data[i])]))];
        return [.. detail.Select((p, r) => detail.Select((q, c) => c < r ? p : GaussianMean.Of(new Plane(p.Width, p.Height, [.. p.Data.Select((v, i) => v * q.Data[i])]), Window, threads)).ToArray())];
    }

    private static Plane Sum(Plane[][] covariance, Plane[] light, Func<float, float, double> term)
    {
        var sum = new Plane(light[0].Width, light[0].Height);
        for (var b = 0; b < light.Length; b++)
            for (var i = 0; i < sum.Data.Length; i++) sum.Data[i] += (float)term(covariance[b][b].Data[i], light[b].Data[i]);
        return sum;
    }
}
