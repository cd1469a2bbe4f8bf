using System.Buffers;
using System.Runtime.InteropServices;
using Microsoft.Win32.SafeHandles;
using Sandarac.Imaging.Storing;

namespace Sandarac.Imaging.Tiles;

/// <summary>
/// Writes a pyramid file tile by tile, from any thread, and halves levels. The header is written last: a file left by a killed process is not
/// taken for an image. Without <see cref="Complete"/> the file is deleted.
/// </summary>
internal sealed class PyramidWriter : IDisposable
{
    private readonly string _path;
    private readonly SafeFileHandle _file;
    private bool _complete;

    public PyramidWriter(string path, PyramidLayout layout)
    {
        _path = path;
        Layout = layout;
        _file = Disk.Create(path, layout.FileBytes);
    }

    public PyramidLayout Layout { get; }

    public void WriteTile(int level, int column, int row, ReadOnlySpan<byte> tile)
    {
        try
        {
            RandomAccess.Write(_file, tile, Layout.TileOffset(level, column, row));
        }
        catch (IOException e) when (Disk.IsFull(e))
        {
            throw Disk.FullProblem(_path, e);
        }
    }

    public void ReadTile(int level, int column, int row, Span<byte> tile) => RandomAccess.Read(_file, tile, Layout.TileOffset(level, column, row));

    /// <summary>Makes all smaller levels that this row of tiles completes.</summary>
    public void RowDone(int level, int row, CancellationToken cancellation)
    {
        if (level + 1 == Layout.Levels.Count || (row % 2 == 0 && row + 1 < Layout.Levels[level].TileRows)) return;
        var options = new ParallelOptions { CancellationToken = cancellation };
        Parallel.For(0, Layout.Levels[level + 1].TileColumns, options, column => Halve(level, column, row / 2));
        RowDone(level + 1, row / 2, cancellation);
    }

    /// <summary>Writes the header; the file is then whole.</summary>
    public void Complete()
    {
        RandomAccess.Write(_file, Layout.Header(), 0);
        RandomAccess.SetLength(_file, Layout.FileBytes);
        _complete = true;
    }

    public void Dispose()
    {
        _file.Dispose();
        if (!_complete) File.Delete(_path);
    }

    /// <summary>Fills a tile with what lies outside every image: zero, or NaN.</summary>
    public static void Blank(Span<byte> tile, TileFormat format)
    {
        if (format == TileFormat.Float32) MemoryMarshal.Cast<byte, float>(tile).Fill(float.NaN);
        else tile.Clear();
    }

    private void Halve(int level, int column, int row)
    {
        var (target, source) = (ArrayPool<byte>.Shared.Rent(Layout.TileBytes), ArrayPool<byte>.Shared.Rent(Layout.TileBytes));
        var tile = target.AsSpan(0, Layout.TileBytes);
        var from = Layout.Levels[level];
        Blank(tile, Layout.Format);
        for (var quarter = 0; quarter < 4; quarter++)
        {
            var (c, r) = (2 * column + quarter % 2, 2 * row + quarter / 2);
            if (c >= from.TileColumns || r >= from.TileRows) continue;
            ReadTile(level, c, r, source.AsSpan(0, Layout.TileBytes));
            var (width, height) = (Math.Min(PyramidFile.TileSize, from.Width - c * PyramidFile.TileSize), Math.Min(PyramidFile.TileSize, from.Height - r * PyramidFile.TileSize));
            Halving.Quarter(source, width, height, tile, quarter % 2, quarter / 2, Layout.Bands, Layout.Format);
        }
        WriteTile(level + 1, column, row, tile);
        ArrayPool<byte>.Shared.Return(target);
        ArrayPool<byte>.Shared.Return(source);
    }
}
