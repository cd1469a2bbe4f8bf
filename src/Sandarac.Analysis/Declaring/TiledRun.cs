using Sandarac.Imaging;

namespace Sandarac.Analysis.Declaring;

/// <summary>How a run is cut up. It changes speed and memory, never a number.</summary>
/// <param name="TileSize">Side of the square tiles in pixels, at least 1; int.MaxValue for the whole image at once.</param>
/// <param name="Threads">Tiles computed at once, at least 1.</param>
public sealed record Tiling(int TileSize, int Threads)
{
    /// <summary>Tiles of 512 pixels, one thread for each processor.</summary>
    public static Tiling Default { get; } = new(512, Environment.ProcessorCount);
}

/// <summary>A tile: the part to compute, and the window to read for it.</summary>
/// <param name="Left">First column of the part to compute.</param>
/// <param name="Top">First row.</param>
/// <param name="Width">Columns to compute.</param>
/// <param name="Height">Rows to compute.</param>
/// <param name="OffsetX">Column of the read window at which the part to compute begins: the halo, less where the image ends.</param>
/// <param name="OffsetY">Row of the read window at which the part begins.</param>
public readonly record struct Tile(int Left, int Top, int Width, int Height, int OffsetX, int OffsetY);

/// <summary>Runs pointwise and halo bodies over tiles on all processors.</summary>
/// <remarks>
/// A tile's window reaches a halo beyond it and is cut off where the image ends, so that a body that looks no further than the halo
/// gives every pixel the same number whatever the tile size. Results are handed over by place or in tile order, so that the number of threads
/// changes nothing. Files are read and rasters written under a lock: neither is thread-safe.
/// </remarks>
public static class TiledRun
{
    /// <summary>Computes a raster tile by tile.</summary>
    /// <param name="images">Images of one size; each body call gets a window of each.</param>
    /// <param name="halo">Pixels needed around a tile, 0 for pointwise bodies.</param>
    /// <param name="body">From a tile and the windows (image, band) to the tile's bands, exactly the tile's size.</param>
    /// <param name="writer">Takes the tiles.</param>
    /// <param name="context">Says how to cut, hears of progress, and cancels.</param>
    public static void ForEach(IReadOnlyList<InputImage> images, int halo, Func<Tile, Plane[][], Plane[]> body, IRasterWriter writer, RunContext context) =>
        Work(images, halo, context.Tiling, (tile, windows, _) =>
        {
            var bands = body(tile, windows);
            lock (writer) writer.WriteWindow(tile.Left, tile.Top, bands);
        }, context);

    /// <summary>Computes a value for each tile. Values come back in the order of tiles (row by row), whichever thread was first.</summary>
    /// <param name="images">Images of one size; each body call gets a window of each.</param>
    /// <param name="tileSize">The tiles' side: fixed by the caller, because what is gathered in a tile depends on it.</param>
    /// <param name="halo">Pixels needed around a tile.</param>
    /// <param name="body">From a tile and the windows (image, band) to the tile's value.</param>
    /// <param name="context">Gives the number of threads, hears of progress, and cancels.</param>
    public static IReadOnlyList<T> Map<T>(IReadOnlyList<InputImage> images, int tileSize, int halo, Func<Tile, Plane[][], T> body, RunContext context)
    {
        var tiling = context.Tiling with { TileSize = tileSize };
        var results = new T[Tiles(images[0], halo, tiling).Count];
        Work(images, halo, tiling, (tile, windows, i) => results[i] = body(tile, windows), context);
        return results;
    }

    /// <summary>The tiles of an image, row by row.</summary>
    internal static IReadOnlyList<Tile> Tiles(InputImage image, int halo, Tiling tiling)
    {
        var (width, height, size) = (image.Image.Facts.Width, image.Image.Facts.Height, tiling.TileSize);
        var tiles = new List<Tile>();
        for (long top = 0; top < height; top += size)
            for (long left = 0; left < width; left += size)
                tiles.Add(new Tile((int)left, (int)top, (int)Math.Min(size, width - left), (int)Math.Min(size, height - top), (int)Math.Min(halo, left), (int)Math.Min(halo, top)));
        return tiles;
    }

    private static void Work(IReadOnlyList<InputImage> images, int halo, Tiling tiling, Action<Tile, Plane[][], int> body, RunContext context)
    {
        var tiles = Tiles(images[0], halo, tiling);
        var reading = new Lock();
        var done = 0;
        var options = new ParallelOptions { MaxDegreeOfParallelism = tiling.Threads, CancellationToken = context.Cancellation };
        try
        {
            Parallel.For(0, tiles.Count, options, i =>
            {
                Plane[][] windows;
                lock (reading)
                {
                    windows = [.. images.Select(image => Window(image, tiles[i], halo))];
                    context.Report((double)done++ / tiles.Count);
                }
                body(tiles[i], windows, i);
            });
        }
        catch (AggregateException e)
        {
            // One cause is enough, and the caller's handlers look for its type.
            System.Runtime.ExceptionServices.ExceptionDispatchInfo.Throw(e.InnerExceptions[0]);
        }
        context.Report(1);
    }

    private static Plane[] Window(InputImage image, Tile tile, int halo)
    {
        var (left, top) = (tile.Left - tile.OffsetX, tile.Top - tile.OffsetY);
        var right = Math.Min(image.Image.Facts.Width, (long)tile.Left + tile.Width + halo);
        var bottom = Math.Min(image.Image.Facts.Height, (long)tile.Top + tile.Height + halo);
        return image.Image.ReadWindow(left, top, (int)(right - left), (int)(bottom - top));
    }
}
