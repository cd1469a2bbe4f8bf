using System.Buffers.Binary;
using System.Runtime.InteropServices;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Tests.Support;

/// <summary>Writes small uncompressed TIFF files (TIFF 6.0) for tests, by hand, so that what is tested is not also what wrote the file.</summary>
internal static class TestTiff
{
    public static string Write16(string path, params Plane[] bands) => Write(path, bands, 2, v => (ushort)Math.Clamp(Math.Round(v), 0, 65535));

    public static string Write8(string path, params Plane[] bands) => Write(path, bands, 1, v => (byte)Math.Clamp(Math.Round(v), 0, 255));

    public static string WriteFloat(string path, params Plane[] bands) => Write(path, bands, 4, v => v);

    private static string Write<T>(string path, Plane[] bands, int bytes, Func<float, T> convert) where T : unmanaged
    {
        var (width, height, n) = (bands[0].Width, bands[0].Height, bands.Length);
        var pixels = new T[width * height * n];
        for (var i = 0; i < width * height; i++)
            for (var b = 0; b < n; b++) pixels[i * n + b] = convert(bands[b].Data[i]);
        var data = MemoryMarshal.AsBytes(pixels.AsSpan()).ToArray();
        (ushort Tag, ushort Type, uint Count, uint Value)[] entries =
        [
            (256, 4, 1, (uint)width), (257, 4, 1, (uint)height), (258, 3, (uint)n, n == 1 ? (uint)bytes * 8 : 200), (259, 3, 1, 1), (262, 3, 1, n >= 3 ? 2u : 1u),
            (273, 4, 1, 256), (277, 3, 1, (uint)n), (278, 4, 1, (uint)height), (279, 4, 1, (uint)data.Length), (339, 3, (uint)n, n == 1 ? bytes == 4 ? 3u : 1u : 220),
        ];
        var head = new byte[256];
        "II*\0"u8.CopyTo(head);
        BinaryPrimitives.WriteUInt32LittleEndian(head.AsSpan(4), 8);
        BinaryPrimitives.WriteUInt16LittleEndian(head.AsSpan(8), (ushort)entries.Length);
        for (var i = 0; i < entries.Length; i++)
        {
            var at = head.AsSpan(10 + 12 * i);
            BinaryPrimitives.WriteUInt16LittleEndian(at, entries[i].Tag);
            BinaryPrimitives.WriteUInt16LittleEndian(at[2..], entries[i].Type);
            BinaryPrimitives.WriteUInt32LittleEndian(at[4..], entries[i].Count);
            BinaryPrimitives.WriteUInt32LittleEndian(at[8..], entries[i].Value);
        }
        for (var b = 0; b < n; b++)
        {
            BinaryPrimitives.WriteUInt16LittleEndian(head.AsSpan(200 + 2 * b), (ushort)(bytes * 8));
            BinaryPrimitives.WriteUInt16LittleEndian(head.AsSpan(220 + 2 * b), (ushort)(bytes == 4 ? 3 : 1));
        }
        File.WriteAllBytes(path, [.. head, .. data]);
        return path;
    }
}
