using System.Runtime.InteropServices;

namespace Sandarac.Imaging.Tiles;

/// <summary>Converts pixel-interleaved samples to float planes; values are never rescaled.</summary>
internal static class Samples
{
    public static Plane[] ToPlanes(ReadOnlySpan<byte> bytes, TileFormat format, int bands, int width, int height)
    {
        var planes = new Plane[bands];
        for (var b = 0; b < bands; b++)
        {
            planes[b] = new Plane(width, height);
            Extract(bytes, format, bands, b, planes[b].Data);
        }
        return planes;
    }

    /// <summary>Writes planes into a tile: integers rounded to nearest and held within their range, NaN as 0.</summary>
    public static void FromPlanes(IReadOnlyList<Plane> planes, Span<byte> tile, TileFormat format, int tileWidth)
    {
        for (var b = 0; b < planes.Count; b++)
            for (var y = 0; y < planes[b].Height; y++)
                Insert(planes[b].Row(y), tile, format, planes.Count, y * tileWidth * planes.Count + b);
    }

    private static void Insert(ReadOnlySpan<float> row, Span<byte> tile, TileFormat format, int bands, int to)
    {
        switch (format)
        {
            case TileFormat.UInt8:
                foreach (var v in row) (tile[to], to) = ((byte)Held(v, 255), to + bands);
                break;
            case TileFormat.UInt16:
                var shorts = MemoryMarshal.Cast<byte, ushort>(tile);
                foreach (var v in row) (shorts[to], to) = ((ushort)Held(v, 65535), to + bands);
                break;
            default:
                var floats = MemoryMarshal.Cast<byte, float>(tile);
                foreach (var v in row) (floats[to], to) = (v, to + bands);
                break;
        }
    }

    private static int Held(float value, int largest) => float.IsNaN(value) ? 0 : Math.Clamp((int)MathF.Round(value), 0, largest);

    private static void Extract(ReadOnlySpan<byte> bytes, TileFormat format, int bands, int band, Span<float> target)
    {
        switch (format)
        {
            case TileFormat.UInt8:
                for (int i = 0, j = band; i < target.Length; i++, j += bands) target[i] = bytes[j];
                break;
            case TileFormat.UInt16:
                var shorts = MemoryMarshal.Cast<byte, ushort>(bytes);
                for (int i = 0, j = band; i < target.Length; i++, j += bands) target[i] = shorts[j];
                break;
            default:
                var floats = MemoryMarshal.Cast<byte, float>(bytes);
                for (int i = 0, j = band; i < target.Length; i++, j += bands) target[i] = floats[j];
                break;
        }
    }
}
