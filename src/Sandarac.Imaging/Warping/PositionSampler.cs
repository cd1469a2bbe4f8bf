using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using Sandarac.Imaging.Geometry;
using Sandarac.Imaging.Tiles;

namespace Sandarac.Imaging.Warping;

/// <summary>Interpolates a pyramid's level at given positions of its full level.</summary>
internal sealed class PositionSampler(PyramidFile source, int level, double stretch)
{
    private readonly PyramidLevel _size = source.Levels[level];
    private readonly double _step = 1 << level;
    private readonly double _stretch = stretch / (1 << level);
    private readonly int _taps = CubicKernel.Taps(stretch / (1 << level));

    /// <summary>One plane a band; NaN where a position lies outside the image.</summary>
    public Plane[] Sample(Point2[] positions, int width, int height)
    {
        var result = Enumerable.Range(0, source.Bands).Select(_ => new Plane(width, height)).ToArray();
        foreach (var plane in result) plane.Data.AsSpan().Fill(float.NaN);
        if (Around(positions) is not var (x0, y0, x1, y1)) return result;
        var window = Read(x0, y0, x1, y1);
        if (_taps == 4) SampleFour(positions, window, x0, y0, result);
        else SampleWide(positions, window, x0, y0, result);
        return result;
    }

    private void SampleFour(Point2[] positions, Plane[] window, int x0, int y0, Plane[] result)
    {
        for (var i = 0; i < positions.Length; i++)
        {
            if (!Inside(positions[i])) continue;
            var left = CubicKernel.FourWeights(positions[i].X / _step, out var wx) - x0;
            var top = CubicKernel.FourWeights(positions[i].Y / _step, out var wy) - y0;
            for (var b = 0; b < window.Length; b++) result[b].Data[i] = Four(window[b], top * window[b].Width + left, wx, wy);
        }
    }

    private void SampleWide(Point2[] positions, Plane[] window, int x0, int y0, Plane[] result)
    {
        Span<float> wx = stackalloc float[_taps], wy = stackalloc float[_taps];
        for (var i = 0; i < positions.Length; i++)
        {
            if (!Inside(positions[i])) continue;
            var left = CubicKernel.Weights(positions[i].X / _step, _stretch, wx) - x0;
            var top = CubicKernel.Weights(positions[i].Y / _step, _stretch, wy) - y0;
            for (var b = 0; b < window.Length; b++) result[b].Data[i] = Wide(window[b], top * window[b].Width + left, wx, wy);
        }
    }

    /// <summary>Products and sums in a fixed order and without fused steps: the same number on every processor.</summary>
    private static float Four(Plane plane, int first, Vector128<float> wx, Vector128<float> wy)
    {
        ref var data = ref MemoryMarshal.GetArrayDataReference(plane.Data);
        var w = plane.Width;
        var rows = Vector128.LoadUnsafe(ref data, (nuint)first) * wy[0] + Vector128.LoadUnsafe(ref data, (nuint)(first + w)) * wy[1]
            + (Vector128.LoadUnsafe(ref data, (nuint)(first + 2 * w)) * wy[2] + Vector128.LoadUnsafe(ref data, (nuint)(first + 3 * w)) * wy[3]);
        var products = rows * wx;
        return products[0] + products[1] + (products[2] + products[3]);
    }

    private static float Wide(Plane plane, int first, ReadOnlySpan<float> wx, ReadOnlySpan<float> wy)
    {
        float sum = 0;
        for (var j = 0; j < wy.Length; j++)
        {
            var row = plane.Data.AsSpan(first + j * plane.Width, wx.Length);
            float inRow = 0;
            for (var i = 0; i < row.Length; i++) inRow += row[i] * wx[i];
            sum += inRow * wy[j];
        }
        return sum;
    }

    private bool Inside(Point2 p) => p.X >= 0 && p.Y >= 0 && p.X <= source.Width && p.Y <= source.Height;

    /// <summary>The part of the level that the positions need, taps included; it may reach over the level's edges.</summary>
    private (int X0, int Y0, int X1, int Y1)? Around(Point2[] positions)
    {
        var (x0, y0, x1, y1) = (double.MaxValue, double.MaxValue, double.MinValue, double.MinValue);
        foreach (var p in positions)
        {
            if (!Inside(p)) continue;
            (x0, x1) = (Math.Min(x0, p.X), Math.Max(x1, p.X));
            (y0, y1) = (Math.Min(y0, p.Y), Math.Max(y1, p.Y));
        }
        if (x0 > x1) return null;
        var reach = _taps / 2 + 2;
        return ((int)(x0 / _step) - reach, (int)(y0 / _step) - reach, (int)(x1 / _step) + reach, (int)(y1 / _step) + reach);
    }

    /// <summary>Reads that part; over the edges the last row or column is repeated.</summary>
    private Plane[] Read(int x0, int y0, int x1, int y1)
    {
        var (left, top) = (Math.Max(0, x0), Math.Max(0, y0));
        var inside = source.ReadWindow(level, left, top, Math.Min(_size.Width, x1) - left, Math.Min(_size.Height, y1) - top);
        if (x0 >= 0 && y0 >= 0 && x1 <= _size.Width && y1 <= _size.Height) return inside;
        return [.. inside.Select(p => Padded(p, left - x0, top - y0, x1 - x0, y1 - y0))];
    }

    private static Plane Padded(Plane inside, int left, int top, int width, int height)
    {
        var padded = new Plane(width, height);
        for (var y = 0; y < height; y++)
        {
            var from = inside.Row(Math.Clamp(y - top, 0, inside.Height - 1));
            var to = padded.Row(y);
            to[..left].Fill(from[0]);
            from.CopyTo(to[left..]);
            to[(left + from.Length)..].Fill(from[^1]);
        }
        return padded;
    }
}
