using Microsoft.Win32.SafeHandles;
using Sandarac.Imaging.Formats;
using Sandarac.Imaging.Tiles;

namespace Sandarac.Imaging.Tiff;

/// <summary>
/// An uncompressed little-endian TIFF image, strips or tiles, read in place: a window costs one system call a row at most, any number of
/// threads may read at once, and nothing is decoded or kept.
/// </summary>
internal sealed class PlainTiff : IPixelSource
{
    private readonly SafeFileHandle _file;
    private readonly long[] _offsets;
    private readonly int _blockWidth;
    private readonly int _blockHeight;
    private readonly int _blockColumns;

    private PlainTiff(SafeFileHandle file, int width, int height, int bands, TileFormat format, int blockWidth, int blockHeight, long[] offsets)
    {
        (_file, Width, Height, Bands, Format) = (file, width, height, bands, format);
        (_blockWidth, _blockHeight, _offsets) = (blockWidth, blockHeight, offsets);
        _blockColumns = (width + blockWidth - 1) / blockWidth;
    }

    public int Width { get; }

    public int Height { get; }

    public int Bands { get; }

    public TileFormat Format { get; }

    public bool IsTiled { get; private init; }

    public int PixelBytes => Bands * Format.Bytes();

    /// <summary>The image of a directory, or null when it is not plain: compressed, big endian, in separate planes, of another depth, turned, or incomplete.</summary>
    public static PlainTiff? From(FileStream file, TiffDirectory d)
    {
        var (width, height, bands) = (d.Number(TiffTag.ImageWidth, 0), d.Number(TiffTag.ImageLength, 0), d.Number(TiffTag.SamplesPerPixel, 1));
        if (width is < 1 or > int.MaxValue || height is < 1 or > int.MaxValue || bands is < 1 or > 64) return null;
        if (!d.LittleEndian || d.Number(TiffTag.Compression, 1) != 1 || d.Number(TiffTag.PlanarConfiguration, 1) != 1) return null;
        if (d.Number(TiffTag.Photometric, 1) is not (1 or 2) || d.Number(TiffTag.Orientation, 1) > 1 || FormatOf(d) is not { } format) return null;
        var tiled = d.Has(TiffTag.TileOffsets);
        var blockWidth = tiled ? d.Number(TiffTag.TileWidth, 0) : width;
        var blockHeight = tiled ? d.Number(TiffTag.TileLength, 0) : Math.Min(height, d.Number(TiffTag.RowsPerStrip, height));
        if (blockWidth is < 1 or > int.MaxValue || blockHeight is < 1 or > int.MaxValue) return null;
        var offsets = d.Numbers(tiled ? TiffTag.TileOffsets : TiffTag.StripOffsets);
        var image = new PlainTiff(file.SafeFileHandle, (int)width, (int)height, (int)bands, format, (int)blockWidth, (int)blockHeight, offsets) { IsTiled = tiled };
        return image.IsComplete(file.Length, tiled) ? image : null;
    }

    /// <summary>Reads a window, pixel-interleaved, row after row. The window must lie inside the image.</summary>
    public void Read(int left, int top, int width, int height, Span<byte> destination)
    {
        for (var by = top / _blockHeight; by <= (top + height - 1) / _blockHeight; by++)
            for (var bx = left / _blockWidth; bx <= (left + width - 1) / _blockWidth; bx++)
                ReadBlock(bx, by, left, top, width, height, destination);
    }

    /// <summary>Reads a whole block, its padding included.</summary>
    public void ReadBlock(int column, int row, Span<byte> destination) => Fill(destination, _offsets[row * _blockColumns + column]);

    /// <summary>Nothing to let go: the file belongs to whoever opened it.</summary>
    public void Dispose()
    {
    }

    private void ReadBlock(int bx, int by, int left, int top, int width, int height, Span<byte> destination)
    {
        var (x0, x1) = (Math.Max(left, bx * _blockWidth), Math.Min(left + width, Math.Min(Width, (bx + 1L) * _blockWidth)));
        var (y0, y1) = (Math.Max(top, by * _blockHeight), Math.Min(top + height, Math.Min(Height, (by + 1L) * _blockHeight)));
        var blockRow = (long)_blockWidth * PixelBytes;
        var from = _offsets[by * _blockColumns + bx] + (y0 - (long)by * _blockHeight) * blockRow + (x0 - (long)bx * _blockWidth) * PixelBytes;
        var (bytes, stride) = ((int)(x1 - x0) * PixelBytes, width * PixelBytes);
        var to = (int)(y0 - top) * stride + (x0 - left) * PixelBytes;
        if (bytes == stride && bytes == blockRow)
        {
            Fill(destination.Slice(to, (int)(y1 - y0) * stride), from);
            return;
        }
        for (var y = y0; y < y1; y++, from += blockRow, to += stride) Fill(destination.Slice(to, bytes), from);
    }

    private void Fill(Span<byte> destination, long offset)
    {
        while (destination.Length > 0)
        {
            var read = RandomAccess.Read(_file, destination, offset);
            if (read == 0) throw new EndOfStreamException();
            destination = destination[read..];
            offset += read;
        }
    }

    private bool IsComplete(long length, bool tiled)
    {
        var blockRows = (Height + (long)_blockHeight - 1) / _blockHeight;
        if (_offsets.Length < blockRows * _blockColumns) return false;
        for (var i = 0; i < blockRows * _blockColumns; i++)
        {
            var rows = tiled ? _blockHeight : Math.Min(_blockHeight, Height - i * (long)_blockHeight);
            if (_offsets[i] < 8 || _offsets[i] > length - rows * _blockWidth * PixelBytes) return false;
        }
        return true;
    }

    private static TileFormat? FormatOf(TiffDirectory d)
    {
        var bits = d.Numbers(TiffTag.BitsPerSample);
        var kinds = d.Numbers(TiffTag.SampleFormat);
        if (bits.Length == 0 || bits.Any(b => b != bits[0]) || kinds.Any(k => k != kinds[0])) return null;
        return (bits[0], kinds.Length == 0 ? 1 : kinds[0]) switch
        {
            (8, 1) => TileFormat.UInt8,
            (16, 1) => TileFormat.UInt16,
            (32, 3) => TileFormat.Float32,
            _ => null,
        };
    }
}
