using Sandarac.Imaging.Tiles;

namespace Sandarac.Imaging.Display;

/// <summary>The values shown as black and as white, in the image's own unit; between them brightness rises in a straight line.</summary>
/// <param name="Low">Shown as black.</param>
/// <param name="High">Shown as white; other than <paramref name="Low"/>.</param>
public readonly record struct ContrastWindow(double Low, double High)
{
    /// <summary>All that a format's integers can hold; 0 to 1 for floats.</summary>
    public static ContrastWindow Full(TileFormat format) => new(0, format.FullScale());

    /// <summary>A window that shows an image well: from the half-percent to the 99.5-percent point of its values, over all colour bands together so
    /// that colours keep their balance, read from the smallest level. An image of one value gets one unit above it; one of no values 0 to 1.</summary>
    public static ContrastWindow Suggest(PyramidFile pyramid)
    {
        var level = pyramid.Levels.Count - 1;
        var size = pyramid.Levels[level];
        var bands = pyramid.ReadWindow(level, 0, 0, size.Width, size.Height);
        var colours = bands.Length is 2 or 4 ? bands.Length - 1 : bands.Length;
        var values = bands.Take(colours).SelectMany(b => b.Data).Where(float.IsFinite).ToArray();
        if (values.Length == 0) return new ContrastWindow(0, 1);
        Array.Sort(values);
        var (low, high) = (values[(int)(0.005 * (values.Length - 1))], values[(int)Math.Ceiling(0.995 * (values.Length - 1))]);
        return new ContrastWindow(low, high > low ? high : low + 1);
    }
}
