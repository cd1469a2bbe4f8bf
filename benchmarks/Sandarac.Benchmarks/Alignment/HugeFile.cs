using NetVips;

namespace Sandarac.Benchmarks.Alignment;

/// <summary>How a huge scan lies in its file.</summary>
internal enum HugeLayout
{
    /// <summary>Tiles and smaller levels, JPEG.</summary>
    Pyramid,

    /// <summary>Tiles alone, JPEG.</summary>
    Tiles,

    /// <summary>Uncompressed strips.</summary>
    Strips,
}

/// <summary>A drawn photograph enlarged to gigapixels as a stream, grey, 8 bit, with grain in every pixel as a scan has it.</summary>
internal static class HugeFile
{
    private const int Patch = 2000, Tile = 512;

    /// <summary>Writes it; nothing is held whole.</summary>
    /// <param name="photograph">A 16-bit photograph.</param>
    /// <param name="target">The BigTIFF to make.</param>
    /// <param name="size">Columns and rows.</param>
    /// <param name="layout">How it lies in the file.</param>
    /// <param name="grain">Which grain; two scans never share one.</param>
    public static void Write(string photograph, string target, (int Width, int Height) size, HugeLayout layout, int grain)
    {
        using var drawn = Image.NewFromFile(photograph);
        using var grey = drawn[drawn.Bands / 2].Linear([1 / 256.0], [0.0]).CopyMemory();
        using var large = grey.Resize((double)size.Width / grey.Width, vscale: (double)size.Height / grey.Height, kernel: Enums.Kernel.Cubic);
        using var patch = Image.Gaussnoise(Patch, Patch, mean: 0, sigma: 3, seed: grain).CopyMemory();
        using var noise = patch.Replicate(size.Width / Patch + 1, size.Height / Patch + 1).Crop(0, 0, large.Width, large.Height);
        using var scan = large.Add(noise).Cast(Enums.BandFormat.Uchar).Copy(interpretation: Enums.Interpretation.Bw);
        var tiled = layout != HugeLayout.Strips;
        scan.Tiffsave(target, compression: tiled ? Enums.ForeignTiffCompression.Jpeg : Enums.ForeignTiffCompression.None, q: 90, tile: tiled, tileWidth: Tile, tileHeight: Tile,
            pyramid: layout == HugeLayout.Pyramid, subifd: layout == HugeLayout.Pyramid, bigtiff: true);
    }
}
