using System.Buffers;
using Sandarac.Imaging.Formats;
using Sandarac.Imaging.Tiff;

namespace Sandarac.Imaging.Tiles;

/// <summary>
/// A tiled pyramidal TIFF for display and for reading by windows: 512 px tiles, the image's own depth (8-bit, 16-bit or float), uncompressed, each
/// level the mean of 2 x 2 pixels of the one below. Any number of threads may read at once.
/// </summary>
/// <remarks>It is an ordinary BigTIFF: <see cref="ImageFile"/> and other programs open its full level, the smaller ones are its SubIFDs.</remarks>
public sealed class PyramidFile : IDisposable
{
    /// <summary>Columns and rows of a tile.</summary>
    public const int TileSize = 512;

    private readonly FileStream _file;
    private readonly PlainTiff[] _images;

    private PyramidFile(string path, FileStream file, PlainTiff[] images, byte[]? icc)
    {
        (Path, _file, _images, IccProfile) = (path, file, images, icc);
        Levels = [.. images.Select(i => new PyramidLevel(i.Width, i.Height))];
    }

    /// <summary>Where the file lies.</summary>
    public string Path { get; }

    /// <summary>The levels, full size first.</summary>
    public IReadOnlyList<PyramidLevel> Levels { get; }

    /// <summary>Columns of the full level.</summary>
    public int Width => _images[0].Width;

    /// <summary>Rows of the full level.</summary>
    public int Height => _images[0].Height;

    /// <summary>Bands, alpha included.</summary>
    public int Bands => _images[0].Bands;

    /// <summary>How samples are held.</summary>
    public TileFormat Format => _images[0].Format;

    /// <summary>The embedded ICC profile; null when the image is untagged.</summary>
    public byte[]? IccProfile { get; }

    /// <summary>Bytes of a tile: 512 x 512 x bands x bytes per sample.</summary>
    public int TileBytes => TileSize * TileSize * _images[0].PixelBytes;

    /// <summary>Writes the pyramid of an image in one pass over it; memory stays at a few rows of tiles whatever the image's size.</summary>
    /// <param name="source">The image; formats other than 8-bit, 16-bit and float are held as float32.</param>
    /// <param name="target">Path of the file to make; deleted again when anything goes wrong or the work is cancelled.</param>
    /// <param name="progress">0 to 1.</param>
    /// <param name="cancellation">Cancels.</param>
    /// <exception cref="InputProblem">The source is damaged, or the disk is full.</exception>
    /// <exception cref="OperationCanceledException">Cancelled; nothing is left behind.</exception>
    public static void Write(ImageFile source, string target, IProgress<double>? progress = null, CancellationToken cancellation = default)
    {
        var layout = new PyramidLayout(source.Facts.Width, source.Facts.Height, source.Facts.Bands, source.TileFormat, source.Facts.Scale, source.IccProfile);
        using var writer = new PyramidWriter(target, layout);
        using var rows = source.OpenForOnePass();
        var buffer = new byte[checked(layout.Levels[0].Width * TileSize * layout.PixelBytes)];
        for (var row = 0; row < layout.Levels[0].TileRows; row++)
        {
            cancellation.ThrowIfCancellationRequested();
            var count = Math.Min(TileSize, source.Facts.Height - row * TileSize);
            rows.Read(0, row * TileSize, source.Facts.Width, count, buffer);
            WriteRow(writer, row, count, buffer, cancellation);
            writer.RowDone(0, row, cancellation);
            progress?.Report((row + 1.0) / layout.Levels[0].TileRows);
        }
        writer.Complete();
    }

    /// <summary>Opens a pyramid that <see cref="Write"/>, a resampler or a raster writer made.</summary>
    /// <exception cref="InvalidDataException">The file is not such a pyramid, or is damaged.</exception>
    /// <exception cref="FileNotFoundException">There is no such file.</exception>
    public static PyramidFile Open(string path)
    {
        var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.Read | FileShare.Delete, 4096, FileOptions.RandomAccess);
        try
        {
            var first = TiffDirectory.First(file);
            var images = first.Numbers(TiffTag.SubIfds).Select(first.At).Prepend(first).Select(d => PlainTiff.From(file, d)).ToArray();
            if (Array.Exists(images, i => i is not { IsTiled: true })) throw new InvalidDataException($"{path} is not a pyramid of plain tiles.");
            return new PyramidFile(path, file, images!, first.Bytes(TiffTag.IccProfile));
        }
        catch
        {
            file.Dispose();
            throw;
        }
    }

    /// <summary>Reads a tile, pixel-interleaved, little endian, always 512 x 512: what lies beyond the image's edge is 0, or NaN for floats.</summary>
    /// <param name="level">0 is full size.</param>
    /// <param name="column">Column of tiles.</param>
    /// <param name="row">Row of tiles.</param>
    /// <param name="destination">At least <see cref="TileBytes"/> long.</param>
    /// <exception cref="ArgumentOutOfRangeException">There is no such tile.</exception>
    public void ReadTile(int level, int column, int row, Span<byte> destination)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(level);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(level, Levels.Count);
        ArgumentOutOfRangeException.ThrowIfNegative(column);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(column, Levels[level].TileColumns);
        ArgumentOutOfRangeException.ThrowIfNegative(row);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(row, Levels[level].TileRows);
        _images[level].ReadBlock(column, row, destination[..TileBytes]);
    }

    /// <summary>Reads a window of a level, pixel-interleaved, little endian. The window must lie inside the level.</summary>
    public void ReadBytes(int level, int left, int top, int width, int height, Span<byte> destination) =>
        _images[level].Read(left, top, width, height, destination);

    /// <summary>Reads a window of a level as float planes of the file's own values. The window must lie inside the level.</summary>
    public Plane[] ReadWindow(int level, int left, int top, int width, int height)
    {
        var bytes = ArrayPool<byte>.Shared.Rent(checked(width * height * _images[0].PixelBytes));
        ReadBytes(level, left, top, width, height, bytes);
        var planes = Samples.ToPlanes(bytes, Format, Bands, width, height);
        ArrayPool<byte>.Shared.Return(bytes);
        return planes;
    }

    /// <inheritdoc/>
    public void Dispose() => _file.Dispose();

    private static void WriteRow(PyramidWriter writer, int row, int count, byte[] buffer, CancellationToken cancellation)
    {
        var (layout, stride) = (writer.Layout, writer.Layout.Levels[0].Width * writer.Layout.PixelBytes);
        var options = new ParallelOptions { CancellationToken = cancellation };
        Parallel.For(0, layout.Levels[0].TileColumns, options, column =>
        {
            var tile = ArrayPool<byte>.Shared.Rent(layout.TileBytes);
            var tileStride = TileSize * layout.PixelBytes;
            var bytes = Math.Min(tileStride, stride - column * tileStride);
            if (bytes < tileStride || count < TileSize) PyramidWriter.Blank(tile.AsSpan(0, layout.TileBytes), layout.Format);
            for (var y = 0; y < count; y++) buffer.AsSpan(y * stride + column * tileStride, bytes).CopyTo(tile.AsSpan(y * tileStride));
            writer.WriteTile(0, column, row, tile.AsSpan(0, layout.TileBytes));
            ArrayPool<byte>.Shared.Return(tile);
        });
    }
}
