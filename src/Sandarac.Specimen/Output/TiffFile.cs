using System.Runtime.InteropServices;
using System.Text;
using Microsoft.Win32.SafeHandles;

namespace Sandarac.Specimen.Output;

/// <summary>What a camera writes beside the pixels.</summary>
internal sealed record ExifFacts(string Maker, string Model, string Description, DateTime TakenAt, double ExposureSeconds, double FNumber,
    int Iso);

/// <summary>How the samples of a file are meant.</summary>
internal sealed record TiffLayout(int Width, int Height, int Bands, int BytesPerSample, bool Float, double PixelsPerInch,
    byte[]? Icc = null, ExifFacts? Exif = null);

/// <summary>
/// An uncompressed little-endian TIFF 6.0 file, one strip a row block, written row by row from any thread: each row has its fixed place,
/// so rows
/// may come in any order. The file appears under its name only when <see cref="Commit"/> is called; otherwise nothing is left.
/// </summary>
internal sealed class TiffFile : IDisposable
{
    private readonly string _path;
    private readonly SafeFileHandle _file;
    private readonly int _rowBytes;
    private readonly long _pixels;
    private bool _committed;

    public TiffFile(string path, TiffLayout layout)
    {
        _path = path;
        _rowBytes = checked(layout.Width * layout.Bands * layout.BytesPerSample);
        if ((long)_rowBytes * layout.Height > uint.MaxValue - 65536) throw new NotSupportedException("A TIFF file holds 4 GB at most.");
        var header = TiffHeader.Build(layout, _rowBytes);
        _pixels = header.Length;
        _file = File.OpenHandle(Temporary, FileMode.Create, FileAccess.Write, FileShare.None);
        RandomAccess.SetLength(_file, _pixels + (long)_rowBytes * layout.Height);
        RandomAccess.Write(_file, header, 0);
    }

    private string Temporary => _path + ".part";

    /// <summary>Writes whole rows from row <paramref name="top"/> on.</summary>
    public void WriteRows<T>(int top, ReadOnlySpan<T> rows) where T : unmanaged =>
        RandomAccess.Write(_file, MemoryMarshal.AsBytes(rows), _pixels + (long)top * _rowBytes);

    /// <summary>The file is whole: give it its name.</summary>
    public void Commit()
    {
        _file.Dispose();
        File.Move(Temporary, _path, overwrite: true);
        _committed = true;
    }

    public void Dispose()
    {
        _file.Dispose();
        if (!_committed) File.Delete(Temporary);
    }
}

/// <summary>The bytes before the pixels: header, directory, the values that do not fit into it. TIFF 6.0 sections 2 and 8; EXIF 2.3 for
/// its own directory.</summary>
internal static class TiffHeader
{
    private const int Short = 3, Long = 4, Rational = 5, Ascii = 2, Undefined = 7;

    public static byte[] Build(TiffLayout t, int rowBytes)
    {
        const int rowsPerStrip = 64;
        var strips = (t.Height + rowsPerStrip - 1) / rowsPerStrip;
        var lengths = Enumerable.Range(0, strips).Select(s => (uint)(rowBytes * Math.Min(rowsPerStrip, t.Height - s
            * rowsPerStrip))).ToArray();
        // The strips' offsets depend on the header's own length, which does not depend on them: build twice.
        var size = Assemble(t, rowsPerStrip, new uint[strips], lengths).Length;
        var offsets = Enumerable.Range(0, strips).Select(s => (uint)(size + (long)s * rowsPerStrip * rowBytes)).ToArray();
        return Assemble(t, rowsPerStrip, offsets, lengths);
    }

    private static byte[] Assemble(TiffLayout t, int rowsPerStrip, uint[] offsets, uint[] lengths)
    {
        var entries = new List<Entry>
        {
            new(256, Long, Longs((uint)t.Width)), new(257, Long, Longs((uint)t.Height)),
            new(258, Short, Shorts([.. Enumerable.Repeat((ushort)(8 * t.BytesPerSample), t.Bands)])), new(259, Short, Shorts(1)),
            new(262, Short, Shorts((ushort)(t.Bands == 3 ? 2 : 1))), new(273, Long, Longs(offsets)),
                new(277, Short, Shorts((ushort)t.Bands)),
            new(278, Long, Longs((uint)rowsPerStrip)), new(279, Long, Longs(lengths)), new(282, Rational, Ratio(t.PixelsPerInch)),
            new(283, Rational, Ratio(t.PixelsPerInch)), new(284, Short, Shorts(1)), new(296, Short, Shorts(2)),
            new(339, Short, Shorts([.. Enumerable.Repeat((ushort)(t.Float ? 3 : 1), t.Bands)])),
        };
        if (t.Icc is { } icc) entries.Add(new(34675, Undefined, icc));
        if (t.Exif is not { } x) return Directory(entries, 8, true);
        entries.AddRange([new(270, Ascii, Text(x.Description)), new(271, Ascii, Text(x.Maker)), new(272, Ascii, Text(x.Model)),
            new(306, Ascii, Stamp(x.TakenAt))]);
        var main = Directory([.. entries, new(34665, Long, Longs(0))], 8, true);
        var withPointer = Directory([.. entries, new(34665, Long, Longs((uint)main.Length))], 8, true);
        return [.. withPointer, .. Directory(ExifEntries(x), main.Length, false)];
    }

    private static List<Entry> ExifEntries(ExifFacts x) =>
    [
        new(33434, Rational, Ratio(x.ExposureSeconds)), new(33437, Rational, Ratio(x.FNumber)), new(34855, Short, Shorts((ushort)x.Iso)),
        new(36864, Undefined, Encoding.ASCII.GetBytes("0230")), new(36867, Ascii, Stamp(x.TakenAt)), new(36868, Ascii, Stamp(x.TakenAt)),
    ];

    private static byte[] Directory(List<Entry> entries, int at, bool withHeader)
    {
        var directory = new MemoryStream();
        if (withHeader) directory.Write([0x49, 0x49, 42, 0, 8, 0, 0, 0]);
        var extra = new MemoryStream();
        var extraAt = at + 2 + 12 * entries.Count + 4;
        directory.Write(Shorts((ushort)entries.Count));
        foreach (var e in entries.OrderBy(e => e.Tag))
        {
            directory.Write([.. Shorts(e.Tag, (ushort)e.Type), .. Longs((uint)(e.Data.Length / SizeOf(e.Type)))]);
            if (e.Data.Length <= 4) directory.Write([.. e.Data, .. new byte[4 - e.Data.Length]]);
            else
            {
                directory.Write(Longs((uint)(extraAt + extra.Length)));
                extra.Write(e.Data);
                if (extra.Length % 2 != 0) extra.WriteByte(0);
            }
        }
        directory.Write(new byte[4]);
        return [.. directory.ToArray(), .. extra.ToArray()];
    }

    private static int SizeOf(int type) => type switch { Short => 2, Long => 4, Rational => 8, _ => 1 };

    private static byte[] Shorts(params ushort[] v) => MemoryMarshal.AsBytes(v.AsSpan()).ToArray();

    private static byte[] Longs(params uint[] v) => MemoryMarshal.AsBytes(v.AsSpan()).ToArray();

    private static byte[] Ratio(double v) => Longs((uint)Math.Round(v * 10000), 10000);

    private static byte[] Text(string s) => [.. Encoding.UTF8.GetBytes(s), 0];

    private static byte[] Stamp(DateTime t) => Text(t.ToString("yyyy:MM:dd HH:mm:ss", System.Globalization.CultureInfo.InvariantCulture));

    private sealed record Entry(ushort Tag, int Type, byte[] Data);
}
