namespace Sandarac.Studio.Tests.Support;

/// <summary>Writes small uncompressed TIFF files (TIFF 6.0, one strip, little endian) without using the code under test.</summary>
public static class TinyTiff
{
    /// <summary>16-bit samples, pixel-interleaved.</summary>
    /// <param name="path">The file to make.</param>
    /// <param name="width">Columns.</param>
    /// <param name="height">Rows.</param>
    /// <param name="bands">1 or 3.</param>
    /// <param name="samples">width x height x bands values.</param>
    /// <param name="pixelsPerInch">Resolution tags; 0 for none.</param>
    public static void Write(string path, int width, int height, int bands, ushort[] samples, int pixelsPerInch = 0)
    {
        List<(ushort Tag, ushort Type, uint Count, uint Value)> entries =
        [
            (256, 4, 1, (uint)width), (257, 4, 1, (uint)height), (258, 3, (uint)bands, bands == 1 ? 16u : 8u), (259, 3, 1, 1), (262, 3, 1, bands == 1 ? 1u : 2u),
            (273, 4, 1, 32), (277, 3, 1, (uint)bands), (278, 4, 1, (uint)height), (279, 4, 1, (uint)(2 * samples.Length)),
        ];
        if (pixelsPerInch > 0) entries.AddRange([(282, 5, 1, 16), (283, 5, 1, 16), (296, 3, 1, 2)]);
        using var writer = new BinaryWriter(File.Create(path));
        writer.Write("II*\0"u8);
        writer.Write((uint)(32 + 2 * samples.Length));
        writer.Write([16, 0, 16, 0, 16, 0, 0, 0]); // bits per sample, at 8
        writer.Write((uint)pixelsPerInch); // resolution, at 16
        writer.Write(1u);
        writer.Write(new byte[8]);
        foreach (var sample in samples) writer.Write(sample);
        writer.Write((ushort)entries.Count);
        foreach (var (tag, type, count, value) in entries)
        {
            writer.Write(tag);
            writer.Write(type);
            writer.Write(count);
            writer.Write(tag is 282 or 283 ? 16u : value);
        }
        writer.Write(0u);
    }
}
