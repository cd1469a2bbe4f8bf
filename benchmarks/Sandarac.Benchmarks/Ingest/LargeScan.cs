using NetVips;

namespace Sandarac.Benchmarks.Ingest;

/// <summary>A large 16-bit RGB TIFF as a scanner would deliver it: uncompressed strips, uneven light, canvas-like texture and noise in every pixel.</summary>
internal static class LargeScan
{
    private const int Patch = 2000;

    /// <summary>Writes it row by row; 6 bytes a pixel.</summary>
    /// <param name="path">The file to make.</param>
    /// <param name="size">Columns and rows.</param>
    public static void Write(string path, int size)
    {
        using var light = Image.Grey(size, size).Linear([18000.0, 16000, 13000], [21000.0, 19000, 17000]);
        using var threads = Image.Sines(Patch, Patch, hfreq: 250).Multiply(Image.Sines(Patch, Patch, vfreq: 200));
        using var noise = Image.Gaussnoise(Patch, Patch, mean: 0, sigma: 500, seed: 1).Bandjoin(
            Image.Gaussnoise(Patch, Patch, mean: 0, sigma: 600, seed: 2), Image.Gaussnoise(Patch, Patch, mean: 0, sigma: 700, seed: 3));
        using var patch = threads.Linear([3000.0], [0.0]).Add(noise).CopyMemory();
        var across = (size + Patch - 1) / Patch;
        using var scan = patch.Replicate(across, across).Crop(0, 0, size, size).Add(light).Cast(Enums.BandFormat.Ushort).Copy(interpretation: Enums.Interpretation.Rgb16);
        scan.Tiffsave(path);
    }
}
