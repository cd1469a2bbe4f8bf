using Sandarac.Imaging;

namespace Sandarac.Analysis.Teaching;

/// <summary>What a pixel is told by: for each band, mean, standard deviation and steepness under Gaussian windows of three sizes.</summary>
/// <param name="layers">The layers.</param>
/// <param name="finestMm">Standard deviation of the smallest window, mm; the others are two and four times as large. None is smaller than 0.7 pixels.</param>
internal sealed class FeatureSet(TaughtLayers layers, double finestMm)
{
    private const double FinestPixels = 0.7;

    private readonly double[] _sigmas = [.. ((int[])[1, 2, 4]).Select(octave => Math.Max(FinestPixels, octave * finestMm / layers.MmPerPixel))];

    /// <summary>The layers.</summary>
    public TaughtLayers Layers => layers;

    /// <summary>Features of one band, which come one after the other.</summary>
    public int PerBand => _sigmas.Length * LocalMoments.Count;

    /// <summary>Features of a pixel.</summary>
    public int Count => layers.Bands.Count * PerBand;

    /// <summary>Pixels needed around a place.</summary>
    public int Halo => _sigmas.Max(LocalMoments.Halo);

    /// <summary>The features of a part of the image.</summary>
    /// <param name="left">First column.</param>
    /// <param name="top">First row.</param>
    /// <param name="width">Columns.</param>
    /// <param name="height">Rows.</param>
    /// <param name="threads">How many at once, and whether still; null for one.</param>
    public FeatureTile Of(int left, int top, int width, int height, ParallelOptions? threads = null)
    {
        var (x, y) = (Math.Max(0, left - Halo), Math.Max(0, top - Halo));
        return Of(layers.Window(x, y, Math.Min(layers.Width, left + width + Halo) - x, Math.Min(layers.Height, top + height + Halo) - y), x, y, threads);
    }

    /// <summary>The features of a window that was read already.</summary>
    /// <param name="bands">Bands as shares of full scale, with the halo about the pixels that will be asked for.</param>
    /// <param name="left">The window's first column in the image.</param>
    /// <param name="top">Its first row.</param>
    /// <param name="threads">How many at once, and whether still; null for one.</param>
    public FeatureTile Of(Plane[] bands, int left, int top, ParallelOptions? threads = null)
    {
        var moments = new LocalMoments[bands.Length * _sigmas.Length];
        Parallel.For(0, moments.Length, threads ?? new ParallelOptions { MaxDegreeOfParallelism = 1 },
            m => moments[m] = LocalMoments.Of(bands[m / _sigmas.Length], left, top, _sigmas[m % _sigmas.Length], layers.MmPerPixel));
        return new FeatureTile(bands, left, top, moments);
    }
}

/// <summary>Features of a window, given out in runs of pixels.</summary>
/// <param name="bands">The window's bands.</param>
/// <param name="left">The window's first column in the image.</param>
/// <param name="top">Its first row.</param>
/// <param name="moments">Band by band, by size of window.</param>
internal sealed class FeatureTile(Plane[] bands, int left, int top, LocalMoments[] moments)
{
    /// <summary>Whether a pixel has data in every band; without, it is neither learnt from nor judged.</summary>
    public bool HasData(int x, int y) => Array.TrueForAll(bands, b => float.IsFinite(b[x - left, y - top]));

    /// <summary>Writes all features of a run of pixels, feature by feature.</summary>
    /// <param name="x">First column in the image.</param>
    /// <param name="y">Row in the image.</param>
    /// <param name="count">Pixels.</param>
    /// <param name="target">Takes the features, <paramref name="stride"/> apart.</param>
    /// <param name="stride">Distance from one feature to the next.</param>
    public void Fill(int x, int y, int count, Span<float> target, int stride)
    {
        for (var m = 0; m < moments.Length; m++) moments[m].Fill(x, y, count, target[(m * LocalMoments.Count * stride)..], stride);
    }
}
