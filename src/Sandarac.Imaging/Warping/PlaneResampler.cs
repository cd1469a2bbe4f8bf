using System.Buffers;
using Sandarac.Imaging.Geometry;
using Sandarac.Imaging.Tiles;

namespace Sandarac.Imaging.Warping;

/// <summary>
/// Brings a photograph onto a grid on the plane, tile by tile: each target pixel's centre is carried back to the photograph exactly and interpolated there
/// by cubic convolution (<see cref="CubicKernel"/>). Depth is kept. Same numbers for any tiling and thread count.
/// </summary>
/// <remarks>
/// What the photograph does not show is NaN in float images and 0 in integer ones: choose a grid inside what it shows, as the painted face is.
/// Where the grid is coarser than the photograph, the kernel is widened, and from twice as coarse on a smaller level is read. Interpolation
/// beside strong edges may overshoot a little, as the method does; integers are held within their range. No-data in the source stays no-data.
/// </remarks>
public static class PlaneResampler
{
    /// <summary>Resamples a photograph and writes a pyramid.</summary>
    /// <param name="source">The photograph's pyramid.</param>
    /// <param name="map">Where the photograph lies on the plane.</param>
    /// <param name="grid">The grid to fill.</param>
    /// <param name="target">Path of the file to make; removed again when anything goes wrong or the work is cancelled.</param>
    /// <param name="progress">0 to 1.</param>
    /// <param name="cancellation">Cancels.</param>
    /// <exception cref="InputProblem">The disk is full.</exception>
    /// <exception cref="OperationCanceledException">Cancelled; nothing is left behind.</exception>
    public static void Write(PyramidFile source, PlaneMap map, PlaneGrid grid, string target, IProgress<double>? progress = null, CancellationToken cancellation = default) =>
        Write(source, map, grid, target, new PixelScale(grid.MmPerPixel, ScaleOrigin.Measured), progress, cancellation);

    /// <summary>The same onto a grid whose unit is not the millimetre.</summary>
    /// <param name="source">The photograph's pyramid.</param>
    /// <param name="map">Where the photograph lies on the target.</param>
    /// <param name="grid">The grid to fill.</param>
    /// <param name="target">Path of the file to make.</param>
    /// <param name="scale">What the resolution tags say; null for none.</param>
    /// <param name="progress">0 to 1.</param>
    /// <param name="cancellation">Cancels.</param>
    /// <exception cref="InputProblem">The disk is full.</exception>
    /// <exception cref="OperationCanceledException">Cancelled; nothing is left behind.</exception>
    public static void Write(PyramidFile source, PlaneMap map, PlaneGrid grid, string target, PixelScale? scale, IProgress<double>? progress, CancellationToken cancellation)
    {
        using var writer = new PyramidWriter(target, new PyramidLayout(grid.Width, grid.Height, source.Bands, source.Format, scale, source.IccProfile));
        var level = writer.Layout.Levels[0];
        var options = new ParallelOptions { CancellationToken = cancellation };
        for (var row = 0; row < level.TileRows; row++)
        {
            Parallel.For(0, level.TileColumns, options, column =>
            {
                var (left, top) = (column * PyramidFile.TileSize, row * PyramidFile.TileSize);
                var (width, height) = (Math.Min(PyramidFile.TileSize, level.Width - left), Math.Min(PyramidFile.TileSize, level.Height - top));
                var bytes = ArrayPool<byte>.Shared.Rent(writer.Layout.TileBytes);
                var tile = bytes.AsSpan(0, writer.Layout.TileBytes);
                PyramidWriter.Blank(tile, source.Format);
                var bands = Window(source, map, grid, left, top, width, height);
                Samples.FromPlanes(bands, tile, source.Format, PyramidFile.TileSize);
                writer.WriteTile(0, column, row, tile);
                ArrayPool<byte>.Shared.Return(bytes);
            });
            writer.RowDone(0, row, cancellation);
            progress?.Report((row + 1.0) / level.TileRows);
        }
        writer.Complete();
    }

    /// <summary>Resamples one window of the grid as float planes, NaN where the photograph shows nothing.</summary>
    /// <param name="source">The photograph's pyramid.</param>
    /// <param name="map">Where the photograph lies on the plane.</param>
    /// <param name="grid">The grid.</param>
    /// <param name="left">First column.</param>
    /// <param name="top">First row.</param>
    /// <param name="width">Columns.</param>
    /// <param name="height">Rows.</param>
    public static Plane[] Window(PyramidFile source, PlaneMap map, PlaneGrid grid, int left, int top, int width, int height)
    {
        var stretch = Math.Max(1, grid.MmPerPixel / PlaneGrid.MeanScale(map, grid.ExtentMm));
        var level = Math.Clamp((int)Math.Log2(stretch), 0, source.Levels.Count - 1);
        return new PositionSampler(source, level, stretch).Sample(Positions(map, grid, left, top, width, height), width, height);
    }

    /// <summary>The same by the narrow kernel on the nearest level: four times as fast, and good enough to compare structures, not to keep.</summary>
    public static Plane[] RoughWindow(PyramidFile source, PlaneMap map, PlaneGrid grid, int left, int top, int width, int height)
    {
        // From one and a half times as coarse on the smaller level is nearer.
        var level = Math.Clamp((int)Math.Floor(Math.Log2(grid.MmPerPixel / PlaneGrid.MeanScale(map, grid.ExtentMm) / 0.75)), 0, source.Levels.Count - 1);
        return new PositionSampler(source, level, 1 << level).Sample(Positions(map, grid, left, top, width, height), width, height);
    }

    private static Point2[] Positions(PlaneMap map, PlaneGrid grid, int left, int top, int width, int height)
    {
        var positions = new Point2[width * height];
        for (var y = 0; y < height; y++)
            for (var x = 0; x < width; x++)
                positions[y * width + x] = map.ToPixel(new Point2(grid.ExtentMm.Left + (left + x + 0.5) * grid.MmPerPixel, grid.ExtentMm.Top + (top + y + 0.5) * grid.MmPerPixel));
        return positions;
    }
}
