using System.Buffers.Binary;
using Sandarac.Imaging.Tiff;

namespace Sandarac.Imaging.Tiles;

/// <summary>
/// Where everything lies in a pyramid file. Tiles are uncompressed, so every place is known before the first pixel is: tiles may be written
/// in any order from any thread. A BigTIFF with the image as its only page and the smaller levels as its SubIFDs (TIFF Technical Note 1).
/// </summary>
internal sealed class PyramidLayout
{
    private const int Align = 4096;
    private const int Short = 3, Rational = 5, Undefined = 7, Long8 = 16, Ifd8 = 18;
    private readonly long[] _firstTile;
    private readonly long[] _directories;
    private readonly byte[]? _icc;
    private readonly PixelScale? _scale;

    public PyramidLayout(int width, int height, int bands, TileFormat format, PixelScale? scale, byte[]? icc)
    {
        (Bands, Format, _scale, _icc) = (bands, format, scale, icc);
        Levels = PyramidLevel.Of(width, height);
        (_firstTile, _directories) = (new long[Levels.Count], new long[Levels.Count]);
        // A directory's length does not depend on the places it names: lay out once for the places, once for good.
        long end = 16;
        for (var l = 0; l < Levels.Count; l++)
        {
            _directories[l] = end;
            end += Directory(l).Length;
        }
        end = (end + Align - 1) / Align * Align;
        for (var l = 0; l < Levels.Count; l++)
        {
            _firstTile[l] = end;
            end += (long)Levels[l].TileColumns * Levels[l].TileRows * TileBytes;
        }
        FileBytes = end;
    }

    public IReadOnlyList<PyramidLevel> Levels { get; }

    public int Bands { get; }

    public TileFormat Format { get; }

    public int PixelBytes => Bands * Format.Bytes();

    public int TileBytes => PyramidFile.TileSize * PyramidFile.TileSize * PixelBytes;

    public long FileBytes { get; }

    public long TileOffset(int level, int column, int row) => _firstTile[level] + ((long)row * Levels[level].TileColumns + column) * TileBytes;

    /// <summary>The bytes before the first tile.</summary>
    public byte[] Header()
    {
        var header = new MemoryStream();
        header.Write([0x49, 0x49, 43, 0, 8, 0, 0, 0, 16, 0, 0, 0, 0, 0, 0, 0]);
        for (var l = 0; l < Levels.Count; l++) header.Write(Directory(l));
        return header.ToArray();
    }

    private byte[] Directory(int level)
    {
        var entries = Entries(level);
        var (directory, extra) = (new MemoryStream(), new MemoryStream());
        var extraAt = _directories[level] + 8 + 20L * entries.Count + 8;
        directory.Write(U64(entries.Count));
        foreach (var (tag, type, count, data) in entries)
        {
            directory.Write([.. U16(tag), .. U16(type), .. U64(count)]);
            directory.Write(data.Length <= 8 ? [.. data, .. new byte[8 - data.Length]] : U64(extraAt + extra.Length));
            if (data.Length <= 8) continue;
            extra.Write(data);
            extra.Write(new byte[-data.Length & 7]);
        }
        directory.Write(U64(0));
        return [.. directory.ToArray(), .. extra.ToArray()];
    }

    private List<(int Tag, int Type, long Count, byte[] Data)> Entries(int level)
    {
        var (size, colours) = (Levels[level], Bands is 3 or 4 ? 3 : 1);
        var tiles = size.TileColumns * size.TileRows;
        List<(int, int, long, byte[])> e =
        [
            (TiffTag.NewSubfileType, Long8, 1, U64(level == 0 ? 0 : 1)),
            (TiffTag.ImageWidth, Long8, 1, U64(size.Width)),
            (TiffTag.ImageLength, Long8, 1, U64(size.Height)),
            (TiffTag.BitsPerSample, Short, Bands, Repeat(8 * Format.Bytes())),
            (TiffTag.Compression, Short, 1, U16(1)),
            (TiffTag.Photometric, Short, 1, U16(colours == 3 ? 2 : 1)),
            (TiffTag.SamplesPerPixel, Short, 1, U16(Bands)),
            (TiffTag.PlanarConfiguration, Short, 1, U16(1)),
            (TiffTag.TileWidth, Short, 1, U16(PyramidFile.TileSize)),
            (TiffTag.TileLength, Short, 1, U16(PyramidFile.TileSize)),
            (TiffTag.TileOffsets, Long8, tiles, [.. Enumerable.Range(0, tiles).SelectMany(t => U64(_firstTile[level] + (long)t * TileBytes))]),
            (TiffTag.TileByteCounts, Long8, tiles, [.. Enumerable.Range(0, tiles).SelectMany(_ => U64(TileBytes))]),
            (TiffTag.SampleFormat, Short, Bands, Repeat(Format == TileFormat.Float32 ? 3 : 1)),
        ];
        if (Bands > colours) e.Add((TiffTag.ExtraSamples, Short, Bands - colours, [.. Enumerable.Range(colours, Bands - colours).SelectMany(_ => U16(Bands is 2 or 4 ? 2 : 0))]));
        if (level == 0 && Levels.Count > 1) e.Add((TiffTag.SubIfds, Ifd8, Levels.Count - 1, [.. _directories.Skip(1).SelectMany(U64)]));
        if (level == 0 && _icc is { } icc) e.Add((TiffTag.IccProfile, Undefined, icc.Length, icc));
        if (level == 0 && _scale is { } scale) e.AddRange(Resolution(scale));
        return [.. e.OrderBy(x => x.Item1)];
    }

    private static IEnumerable<(int, int, long, byte[])> Resolution(PixelScale scale)
    {
        const int perCentimetre = 3;
        var ratio = U32((uint)Math.Round(Math.Min(10 / scale.MmPerPixel, 4e5) * 10_000)).Concat(U32(10_000)).ToArray();
        return [(TiffTag.XResolution, Rational, 1, ratio), (TiffTag.YResolution, Rational, 1, ratio), (TiffTag.ResolutionUnit, Short, 1, U16(perCentimetre))];
    }

    private byte[] Repeat(int value) => [.. Enumerable.Range(0, Bands).SelectMany(_ => U16(value))];

    private static byte[] U16(int value) => [(byte)value, (byte)(value >> 8)];

    private static byte[] U32(uint value)
    {
        var bytes = new byte[4];
        BinaryPrimitives.WriteUInt32LittleEndian(bytes, value);
        return bytes;
    }

    private static byte[] U64(long value)
    {
        var bytes = new byte[8];
        BinaryPrimitives.WriteInt64LittleEndian(bytes, value);
        return bytes;
    }
}
