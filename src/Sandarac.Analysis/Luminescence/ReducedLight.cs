using Sandarac.Analysis.Declaring;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Luminescence;

/// <summary>Two photographs on one grid, as light, brought down by a whole factor: each pixel the mean of a square, NaN where half of it has no data.</summary>
/// <param name="Factor">Side of the square.</param>
/// <param name="Glow">The luminescence's bands.</param>
/// <param name="Visible">The visible light's bands.</param>
internal sealed record ReducedLight(int Factor, Plane[] Glow, Plane[] Visible)
{
    /// <summary>Reduces so that the longer side has at most so many pixels.</summary>
    public static ReducedLight Of(LightFrame glow, LightFrame visible, int longestSide, RunContext context)
    {
        var (width, height) = (glow.Image.Image.Facts.Width, glow.Image.Image.Facts.Height);
        var factor = (Math.Max(width, height) + longestSide - 1) / longestSide;
        Plane[] Empty(int bands) => [.. Enumerable.Range(0, bands).Select(_ => new Plane(Math.Max(1, width / factor), Math.Max(1, height / factor)))];
        var reduced = new ReducedLight(factor, Empty(glow.Bands), Empty(visible.Bands));
        TiledRun.Map([glow.Image, visible.Image], factor * Math.Max(1, 512 / factor), 0, (tile, windows) =>
        {
            Reduce(glow.Of(windows[0], tile.Left, tile.Top), reduced.Glow, tile.Left / factor, tile.Top / factor, factor);
            Reduce(visible.Of(windows[1], tile.Left, tile.Top), reduced.Visible, tile.Left / factor, tile.Top / factor, factor);
            return 0;
        }, context);
        return reduced;
    }

    private static void Reduce(Plane[] from, Plane[] to, int left, int top, int factor)
    {
        for (var b = 0; b < from.Length; b++)
            for (var y = 0; y + factor <= from[b].Height && top + y / factor < to[b].Height; y += factor)
                for (var x = 0; x + factor <= from[b].Width && left + x / factor < to[b].Width; x += factor) to[b][left + x / factor, top + y / factor] = Mean(from[b], x, y, factor);
    }

    private static float Mean(Plane plane, int left, int top, int side)
    {
        var (sum, count) = (0.0, 0);
        for (var y = top; y < top + side; y++)
            foreach (var value in plane.Row(y).Slice(left, side))
                if (float.IsFinite(value)) (sum, count) = (sum + value, count + 1);
        return 2 * count < side * side ? float.NaN : (float)(sum / count);
    }
}
