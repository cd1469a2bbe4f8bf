using Sandarac.Analysis.Declaring;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Unexplained;

/// <summary>Two photographs on one grid, as light, brought down by a whole factor: each pixel the mean of a square, NaN where half of it has no data.</summary>
/// <param name="Factor">Side of the square.</param>
/// <param name="Other">The bands of the other light.</param>
/// <param name="Visible">The visible light's bands.</param>
internal sealed record ReducedLight(int Factor, Plane[] Other, Plane[] Visible)
{
    /// <summary>The least factor that leaves at most so many pixels along the longer side.</summary>
    public static int FactorFor(LightFrame frame, int longestSide) => (Math.Max(frame.Image.Image.Facts.Width, frame.Image.Image.Facts.Height) + longestSide - 1) / longestSide;

    /// <summary>Reduces both by a factor.</summary>
    public static ReducedLight Of(LightFrame other, LightFrame visible, int factor, RunContext context)
    {
        var (width, height) = (other.Image.Image.Facts.Width, other.Image.Image.Facts.Height);
        Plane[] Empty(int bands) => [.. Enumerable.Range(0, bands).Select(_ => new Plane(Math.Max(1, width / factor), Math.Max(1, height / factor)))];
        var reduced = new ReducedLight(factor, Empty(other.Bands), Empty(visible.Bands));
        TiledRun.Map([other.Image, visible.Image], factor * Math.Max(1, 512 / factor), 0, (tile, windows) =>
        {
            Reduce(other.Of(windows[0], tile.Left, tile.Top), reduced.Other, tile.Left / factor, tile.Top / factor, factor);
            Reduce(visible.Of(windows[1], tile.Left, tile.Top), reduced.Visible, tile.Left / factor, tile.Top / factor, factor);
            return 0;
        }, context);
        return reduced;
    }

    /// <summary>A plane brought down by a factor in the same way; what is left over at its right and lower side is left out.</summary>
    public static Plane Reduced(Plane plane, int factor)
    {
        var reduced = new Plane(Math.Max(1, plane.Width / factor), Math.Max(1, plane.Height / factor));
        Reduce([plane], [reduced], 0, 0, factor);
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
