using System.Runtime.InteropServices;

namespace Sandarac.Imaging.Tiles;

/// <summary>
/// Halves a tile into a quarter of the tile above it: the mean of 2 x 2 pixels; of those that exist at an odd edge; and, for floats, of those that
/// are not NaN, so that a hole of no-data neither spreads nor darkens its rim. Integers are rounded half up.
/// </summary>
internal static class Halving
{
    private const int Size = PyramidFile.TileSize;

    /// <param name="source">A tile, pixel-interleaved.</param>
    /// <param name="width">Its columns that belong to the image.</param>
    /// <param name="height">Its rows that belong to the image.</param>
    /// <param name="target">The tile above.</param>
    /// <param name="right">0 for a left quarter, 1 for a right one.</param>
    /// <param name="lower">0 for an upper quarter, 1 for a lower one.</param>
    /// <param name="bands">Bands.</param>
    /// <param name="format">Format of both.</param>
    public static void Quarter(ReadOnlySpan<byte> source, int width, int height, Span<byte> target, int right, int lower, int bands, TileFormat format)
    {
        var start = (lower * Size / 2 * Size + right * Size / 2) * bands;
        for (var y = 0; y < (height + 1) / 2; y++)
        {
            var (upper, below) = (2 * y * Size * bands, Math.Min(2 * y + 1, height - 1) * Size * bands);
            var (row, to, count) = (Size * bands, start + y * Size * bands, (width + 1) / 2 * bands);
            switch (format)
            {
                case TileFormat.UInt8:
                    Row8(source.Slice(upper, row), source.Slice(below, row), target.Slice(to, count), width, bands);
                    break;
                case TileFormat.UInt16:
                    var shorts = MemoryMarshal.Cast<byte, ushort>(source);
                    Row16(shorts.Slice(upper, row), shorts.Slice(below, row), MemoryMarshal.Cast<byte, ushort>(target).Slice(to, count), width, bands);
                    break;
                default:
                    var floats = MemoryMarshal.Cast<byte, float>(source);
                    RowFloat(floats.Slice(upper, row), floats.Slice(below, row), MemoryMarshal.Cast<byte, float>(target).Slice(to, count), width, bands);
                    break;
            }
        }
    }

    private static void Row8(ReadOnlySpan<byte> a, ReadOnlySpan<byte> b, Span<byte> target, int width, int bands)
    {
        for (int x = 0, o = 0; o < target.Length; x += 2)
        {
            var (l, r) = (x * bands, Math.Min(x + 1, width - 1) * bands);
            for (var k = 0; k < bands; k++, o++) target[o] = (byte)((a[l + k] + a[r + k] + b[l + k] + b[r + k] + 2) >> 2);
        }
    }

    private static void Row16(ReadOnlySpan<ushort> a, ReadOnlySpan<ushort> b, Span<ushort> target, int width, int bands)
    {
        for (int x = 0, o = 0; o < target.Length; x += 2)
        {
            var (l, r) = (x * bands, Math.Min(x + 1, width - 1) * bands);
            for (var k = 0; k < bands; k++, o++) target[o] = (ushort)((a[l + k] + a[r + k] + b[l + k] + b[r + k] + 2) >> 2);
        }
    }

    private static void RowFloat(ReadOnlySpan<float> a, ReadOnlySpan<float> b, Span<float> target, int width, int bands)
    {
        for (int x = 0, o = 0; o < target.Length; x += 2)
        {
            var (l, r) = (x * bands, Math.Min(x + 1, width - 1) * bands);
            for (var k = 0; k < bands; k++, o++)
            {
                var mean = (a[l + k] + a[r + k] + (b[l + k] + b[r + k])) * 0.25f;
                target[o] = float.IsFinite(mean) ? mean : MeanOfNumbers(a[l + k], a[r + k], b[l + k], b[r + k]);
            }
        }
    }

    private static float MeanOfNumbers(float a, float b, float c, float d)
    {
        double sum = 0;
        var count = 0;
        foreach (var v in (ReadOnlySpan<float>)[a, b, c, d])
        {
            if (float.IsNaN(v)) continue;
            sum += v;
            count++;
        }
        return count == 0 ? float.NaN : (float)(sum / count);
    }
}
