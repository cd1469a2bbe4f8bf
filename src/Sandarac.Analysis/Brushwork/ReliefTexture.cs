using Sandarac.Analysis.Relief;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Brushwork;

/// <summary>How strongly the surface is worked: local root mean square height of what is finer than a wavelength.</summary>
internal static class ReliefTexture
{
    /// <summary>Height finer than a wavelength (high-pass of the Gaussian filter of ISO 16610-61), um.</summary>
    /// <param name="height">Height, um.</param>
    /// <param name="cutOff">Wavelength, pixels.</param>
    /// <param name="threads">How many rows at once.</param>
    public static Plane Finer(Plane height, double cutOff, ParallelOptions threads)
    {
        var result = SurfaceFilter.LongWaves(height, cutOff, threads);
        for (var i = 0; i < result.Data.Length; i++) result.Data[i] = height.Data[i] - result.Data[i];
        return result;
    }

    /// <summary>Root mean square of a plane in a Gaussian window (Sq of ISO 25178-2, weighted), in its unit.</summary>
    /// <param name="finer">Height about its local mean.</param>
    /// <param name="sigma">Standard deviation of the window, pixels.</param>
    /// <param name="threads">How many rows at once.</param>
    public static Plane LocalSq(Plane finer, double sigma, ParallelOptions threads)
    {
        var squares = new Plane(finer.Width, finer.Height);
        for (var i = 0; i < squares.Data.Length; i++) squares.Data[i] = finer.Data[i] * finer.Data[i];
        var result = GaussianMean.Of(squares, sigma, threads);
        for (var i = 0; i < result.Data.Length; i++) result.Data[i] = MathF.Sqrt(MathF.Max(0, result.Data[i]));
        return result;
    }
}
