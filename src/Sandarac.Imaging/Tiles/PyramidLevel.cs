namespace Sandarac.Imaging.Tiles;

/// <summary>One level of a pyramid: level 0 is the image itself, each further one has half its columns and rows, rounded up.</summary>
/// <param name="Width">Columns.</param>
/// <param name="Height">Rows.</param>
public readonly record struct PyramidLevel(int Width, int Height)
{
    /// <summary>Columns of tiles.</summary>
    public int TileColumns => (Width + PyramidFile.TileSize - 1) / PyramidFile.TileSize;

    /// <summary>Rows of tiles.</summary>
    public int TileRows => (Height + PyramidFile.TileSize - 1) / PyramidFile.TileSize;

    /// <summary>All levels of an image, down to the first that fits into one tile.</summary>
    internal static IReadOnlyList<PyramidLevel> Of(int width, int height)
    {
        List<PyramidLevel> levels = [new(width, height)];
        while (levels[^1] is var last && Math.Max(last.Width, last.Height) > PyramidFile.TileSize)
            levels.Add(new PyramidLevel((last.Width + 1) / 2, (last.Height + 1) / 2));
        return levels;
    }
}
