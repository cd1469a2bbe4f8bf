using NetVips;
using Sandarac.Imaging.Tiles;

namespace Sandarac.Benchmarks.Ingest;

/// <summary>The peer where Debian's <c>vips</c> command is not installed: the libvips that comes with the program, with the settings of our pyramid.</summary>
internal static class LibvipsWork
{
    public static string Version => $"{NetVips.NetVips.Version(0)}.{NetVips.NetVips.Version(1)}.{NetVips.NetVips.Version(2)}";

    /// <returns>Bytes of the pyramid.</returns>
    public static long Run(string source, string pyramid)
    {
        using var image = Image.NewFromFile(source, access: Enums.Access.Sequential);
        image.Tiffsave(pyramid, compression: Enums.ForeignTiffCompression.None, tile: true, tileWidth: PyramidFile.TileSize, tileHeight: PyramidFile.TileSize,
            pyramid: true, subifd: true, bigtiff: true, regionShrink: Enums.RegionShrink.Mean);
        return new FileInfo(pyramid).Length;
    }

    /// <summary>The same by the command.</summary>
    public static IReadOnlyList<string> Command(string source, string pyramid) =>
    [
        "tiffsave", source, pyramid, "--compression", "none", "--tile", "--tile-width", $"{PyramidFile.TileSize}", "--tile-height", $"{PyramidFile.TileSize}",
        "--pyramid", "--subifd", "--bigtiff", "--region-shrink", "mean",
    ];
}
