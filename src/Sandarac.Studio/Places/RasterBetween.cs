using Sandarac.Imaging;
using Sandarac.Imaging.Tiles;

namespace Sandarac.Studio.Places;

/// <summary>Values of a raster's first band between its pixels' middles. Keeps the blocks it has read: a line over a large raster passes few of them.</summary>
/// <param name="file">The raster.</param>
internal sealed class RasterBetween(PyramidFile file)
{
    private const int Block = 256;

    private readonly Dictionary<(int Column, int Row), Plane> _blocks = [];

    /// <summary>The value at a place in pixels of the full level, whose middles have half numbers: bilinear; NaN where one of the four pixels around has no value, or beyond the raster.</summary>
    public double At(double x, double y)
    {
        // Within half a pixel of the border the border's pixels count.
        if (!(x >= 0 && y >= 0 && x <= file.Width && y <= file.Height)) return double.NaN;
        var (u, v) = (Math.Clamp(x - 0.5, 0, file.Width - 1), Math.Clamp(y - 0.5, 0, file.Height - 1));
        var (left, top) = ((int)u, (int)v);
        var (right, bottom) = (Math.Min(left + 1, file.Width - 1), Math.Min(top + 1, file.Height - 1));
        var (a, b) = (u - left, v - top);
        return (1 - b) * ((1 - a) * Pixel(left, top) + a * Pixel(right, top)) + b * ((1 - a) * Pixel(left, bottom) + a * Pixel(right, bottom));
    }

    private double Pixel(int x, int y)
    {
        var place = (x / Block, y / Block);
        if (!_blocks.TryGetValue(place, out var block))
        {
            var (left, top) = (place.Item1 * Block, place.Item2 * Block);
            _blocks[place] = block = file.ReadWindow(0, left, top, Math.Min(Block, file.Width - left), Math.Min(Block, file.Height - top))[0];
        }
        return block[x % Block, y % Block];
    }
}
