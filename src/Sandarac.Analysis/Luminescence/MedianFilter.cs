using Sandarac.Analysis.Numbers;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Luminescence;

/// <summary>Running median.</summary>
internal static class MedianFilter
{
    /// <summary>Of large squares so many rows and columns are enough.</summary>
    private const int Most = 11;

    /// <summary>The median over a square about each pixel, of the pixels in it that have data; at the border over the part of the square that lies inside.</summary>
    /// <param name="plane">The plane.</param>
    /// <param name="side">Side of the square, pixels; an even one is made one larger.</param>
    /// <returns>NaN where the pixel itself has no data: nothing is filled in.</returns>
    public static Plane Of(Plane plane, int side)
    {
        var (result, step) = (new Plane(plane.Width, plane.Height), Math.Max(1, side / Most));
        var reach = side / 2 / step * step;
        Parallel.For(0, plane.Height, () => new float[(2 * reach / step + 1) * (2 * reach / step + 1)], (y, _, window) =>
        {
            for (var x = 0; x < plane.Width; x++) result[x, y] = float.IsFinite(plane[x, y]) ? Median(plane, x, y, reach, step, window) : float.NaN;
            return window;
        }, _ => { });
        return result;
    }

    private static float Median(Plane plane, int x, int y, int reach, int step, float[] window)
    {
        var count = 0;
        for (var v = y - reach; v <= y + reach; v += step)
            for (var u = x - reach; u <= x + reach; u += step)
                if (u >= 0 && u < plane.Width && v >= 0 && v < plane.Height && float.IsFinite(plane[u, v])) window[count++] = plane[u, v];
        return Selection.Median(window.AsSpan(0, count));
    }
}
