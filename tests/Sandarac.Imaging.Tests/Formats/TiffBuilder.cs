using System.Buffers.Binary;
using System.Text;

namespace Sandarac.Imaging.Tests.Formats;

/// <summary>Writes small TIFF files by hand, right or wrong, as TIFF 6.0 section 2 lays them out.</summary>
internal sealed class TiffBuilder
{
    private readonly SortedDictionary<int, (int Type, long Count, byte[] Data)> _entries = [];
    private readonly List<(int, int, long, byte[])> _exif = [];

    public byte[] Pixels { get; init; } = [];

    /// <summary>Where the chain of directories goes on; null for the end.</summary>
    public uint? Next { get; init; }

    /// <summary>An 8-bit grey image of one uncompressed strip.</summary>
    public static TiffBuilder Grey8(int width, int height)
    {
        var pixels = new byte[width * height];
        for (var i = 0; i < pixels.Length; i++) pixels[i] = (byte)(i * 7);
        return new TiffBuilder { Pixels = pixels }.Shorts(258, 8).Shorts(259, 1).Shorts(262, 1).Shorts(277, 1)
            .Longs(256, (uint)width).Longs(257, (uint)height).Longs(278, (uint)height).Longs(279, (uint)pixels.Length);
    }

    public TiffBuilder Shorts(int tag, params ushort[] values) => Set(tag, 3, values.Length, [.. values.SelectMany(v => new[] { (byte)v, (byte)(v >> 8) })]);

    public TiffBuilder Longs(int tag, params uint[] values) => Set(tag, 4, values.Length, [.. values.SelectMany(U32)]);

    public TiffBuilder Ratio(int tag, uint over, uint under) => Set(tag, 5, 1, [.. U32(over), .. U32(under)]);

    public TiffBuilder Text(int tag, string text) => Set(tag, 2, text.Length + 1, [.. Encoding.ASCII.GetBytes(text), 0]);

    public TiffBuilder Bytes(int tag, byte[] data) => Set(tag, 7, data.Length, data);

    public TiffBuilder Exif(int tag, string text)
    {
        _exif.Add((tag, 2, text.Length + 1, [.. Encoding.ASCII.GetBytes(text), 0]));
        return this;
    }

    /// <summary>Header, directory, values, pixels, EXIF directory.</summary>
    public byte[] Build()
    {
        if (!_entries.ContainsKey(273)) Longs(273, 0);
        if (_exif.Count > 0) Longs(34665, 0);
        var length = 8 + Directory(8, [.. _entries.Select(e => (e.Key, e.Value.Type, e.Value.Count, e.Value.Data))], 0).Length;
        if (_entries[273].Data.All(b => b == 0)) Longs(273, (uint)length);
        if (_exif.Count > 0) Longs(34665, (uint)(length + Pixels.Length));
        return
        [
            0x49, 0x49, 42, 0, 8, 0, 0, 0,
            .. Directory(8, [.. _entries.Select(e => (e.Key, e.Value.Type, e.Value.Count, e.Value.Data))], Next ?? 0),
            .. Pixels,
            .. _exif.Count > 0 ? Directory(length + Pixels.Length, _exif, 0) : [],
        ];
    }

    private static byte[] Directory(int at, List<(int Tag, int Type, long Count, byte[] Data)> entries, uint next)
    {
        List<byte> table = [(byte)entries.Count, (byte)(entries.Count >> 8)], extra = [];
        var extraAt = at + 2 + 12 * entries.Count + 4;
        foreach (var (tag, type, count, data) in entries)
        {
            table.AddRange([(byte)tag, (byte)(tag >> 8), (byte)type, (byte)(type >> 8), .. U32((uint)count)]);
            table.AddRange(data.Length <= 4 ? [.. data, .. new byte[4 - data.Length]] : U32((uint)(extraAt + extra.Count)));
            if (data.Length > 4) extra.AddRange(data);
        }
        return [.. table, .. U32(next), .. extra];
    }

    private TiffBuilder Set(int tag, int type, long count, byte[] data)
    {
        _entries[tag] = (type, count, data);
        return this;
    }

    private static byte[] U32(uint value)
    {
        var bytes = new byte[4];
        BinaryPrimitives.WriteUInt32LittleEndian(bytes, value);
        return bytes;
    }
}
