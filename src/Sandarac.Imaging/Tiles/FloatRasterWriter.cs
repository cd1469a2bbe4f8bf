using System.Buffers;
using System.Runtime.InteropServices;

namespace Sandarac.Imaging.Tiles;

/// <summary>
/// Takes a float32 raster window by window, in any order and from any thread, and makes a pyramid of it. What nobody writes is NaN.
/// Without <see cref="Complete"/> nothing is left of it.
/// </summary>
public sealed class FloatRasterWriter : IDisposable
{
    private readonly PyramidWriter _writer;
    private readonly bool[] _begun;
    private readonly Lock[] _locks = [.. Enumerable.Range(0, 64).Select(_ => new Lock())];

    /// <summary>Starts a raster.</summary>
    /// <param name="path">The file to make.</param>
    /// <param name="width">Columns.</param>
    /// <param name="height">Rows.</param>
    /// <param name="bands">Bands.</param>
    /// <param name="scale">Written as resolution tags, when known.</param>
    /// <exception cref="InputProblem">The disk is full.</exception>
    public FloatRasterWriter(string path, int width, int height, int bands, PixelScale? scale = null)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(width, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(height, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(bands, 1);
        _writer = new PyramidWriter(path, new PyramidLayout(width, height, bands, TileFormat.Float32, scale, null));
        _begun = new bool[Level.TileColumns * Level.TileRows];
    }

    private PyramidLevel Level => _writer.Layout.Levels[0];

    private int Bands => _writer.Layout.Bands;

    /// <summary>Writes one window of all bands. Windows may overlap: the last one counts.</summary>
    /// <exception cref="ArgumentException">Another number of bands, unequal sizes, or a window that leaves the raster.</exception>
    /// <exception cref="InputProblem">The disk is full.</exception>
    public void WriteWindow(int left, int top, IReadOnlyList<Plane> bands)
    {
        if (bands.Count != Bands || bands.Any(b => b.Width != bands[0].Width || b.Height != bands[0].Height))
            throw new ArgumentException($"The raster has {Bands} bands of one size.", nameof(bands));
        var (width, height) = (bands[0].Width, bands[0].Height);
        if (left < 0 || top < 0 || width > Level.Width - left || height > Level.Height - top)
            throw new ArgumentException($"The window {left}, {top}, {width} x {height} leaves {Level.Width} x {Level.Height}.", nameof(bands));
        const int size = PyramidFile.TileSize;
        for (var row = top / size; row <= (top + height - 1) / size; row++)
            for (var column = left / size; column <= (left + width - 1) / size; column++)
                WriteInto(column, row, left, top, bands);
    }

    /// <summary>Fills what nobody wrote with NaN, makes the smaller levels; the file is then whole.</summary>
    /// <exception cref="InputProblem">The disk is full.</exception>
    /// <exception cref="OperationCanceledException">Cancelled; dispose to remove what there is.</exception>
    public void Complete(CancellationToken cancellation = default)
    {
        for (var row = 0; row < Level.TileRows; row++)
        {
            for (var column = 0; column < Level.TileColumns; column++) Begin(column, row);
            _writer.RowDone(0, row, cancellation);
        }
        _writer.Complete();
    }

    /// <summary>Lets go of the file; removes it unless it is complete.</summary>
    public void Dispose() => _writer.Dispose();

    private void WriteInto(int column, int row, int left, int top, IReadOnlyList<Plane> bands)
    {
        const int size = PyramidFile.TileSize;
        var bytes = ArrayPool<byte>.Shared.Rent(_writer.Layout.TileBytes);
        var tile = bytes.AsSpan(0, _writer.Layout.TileBytes);
        lock (_locks[(row * Level.TileColumns + column) % _locks.Length])
        {
            Begin(column, row);
            _writer.ReadTile(0, column, row, tile);
            var floats = MemoryMarshal.Cast<byte, float>(tile);
            var (x0, x1) = (Math.Max(left, column * size), Math.Min(left + bands[0].Width, (column + 1) * size));
            var (y0, y1) = (Math.Max(top, row * size), Math.Min(top + bands[0].Height, (row + 1) * size));
            for (var b = 0; b < Bands; b++)
                for (var y = y0; y < y1; y++)
                {
                    var from = bands[b].Row(y - top)[(x0 - left)..(x1 - left)];
                    var to = ((y - row * size) * size + x0 - column * size) * Bands + b;
                    for (var x = 0; x < from.Length; x++, to += Bands) floats[to] = from[x];
                }
            _writer.WriteTile(0, column, row, tile);
        }
        ArrayPool<byte>.Shared.Return(bytes);
    }

    private void Begin(int column, int row)
    {
        ref var begun = ref _begun[row * Level.TileColumns + column];
        if (begun) return;
        var bytes = ArrayPool<byte>.Shared.Rent(_writer.Layout.TileBytes);
        var tile = bytes.AsSpan(0, _writer.Layout.TileBytes);
        PyramidWriter.Blank(tile, TileFormat.Float32);
        _writer.WriteTile(0, column, row, tile);
        ArrayPool<byte>.Shared.Return(bytes);
        begun = true;
    }
}
