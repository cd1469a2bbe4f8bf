using Sandarac.Analysis.Relief;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Brushwork;

/// <summary>How strongly the surface is worked: local root mean square height between two wavelengths.</summary>
internal static class ReliefTexture
{
    /// <summary>Waves shorter than this many pixels are the lens's and the grid's as much as the surface's.</summary>
    public const double FinestPixels = 3;

    /// <summary>Height between two wavelengths (the S-L surface of ISO 25178-3 by the Gaussian filter of ISO 16610-61), um.</summary>
    /// <param name="height">Height, um.</param>
    /// <param name="shortest">Shortest wavelength, pixels, at least <see cref="FinestPixels"/> of which are taken; null for all that the photographs show.</param>
    /// <param name="longest">Longest wavelength, pixels.</param>
    /// <param name="threads">How many rows at once.</param>
    public static Plane Between(Plane height, double? shortest, double longest, ParallelOptions threads)
    {
        var (surface, form) = (shortest is { } s ? SurfaceFilter.LongWaves(height, Math.Max(s, FinestPixels), threads) : height, SurfaceFilter.LongWaves(height, longest, threads));
        for (var i = 0; i < form.Data.Length; i++) form.Data[i] = surface.Data[i] - form.Data[i];
        return form;
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
