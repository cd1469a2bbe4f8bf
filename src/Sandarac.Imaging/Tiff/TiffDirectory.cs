using System.Buffers.Binary;
using System.Text;

namespace Sandarac.Imaging.Tiff;

/// <summary>
/// One image file directory of a TIFF or BigTIFF file: its tags, read without touching pixels. Enough to know what a file claims, whether all
/// of it is there, and where plain pixels lie. TIFF 6.0 (Aldus 1992) section 2; BigTIFF as in libtiff's description of the format.
/// </summary>
internal sealed class TiffDirectory
{
    private const int MaxEntries = 4096;
    private readonly Dictionary<int, Entry> _entries = [];
    private readonly Stream _file;
    private readonly bool _big;

    private TiffDirectory(Stream file, bool big, bool littleEndian)
    {
        _file = file;
        _big = big;
        LittleEndian = littleEndian;
    }

    public bool LittleEndian { get; }

    /// <summary>Where the next directory lies; 0 when this is the last.</summary>
    public long Next { get; private set; }

    /// <summary>Where the directory and all that its tags point to end; beyond the end of the file when it is cut.</summary>
    public long End { get; private set; }

    /// <summary>Reads the first directory of a file, or of the EXIF block of another format, which is built the same way.</summary>
    /// <exception cref="InvalidDataException">It does not lie in the file.</exception>
    public static TiffDirectory First(Stream file)
    {
        Span<byte> head = stackalloc byte[16];
        file.Position = 0;
        file.ReadAtLeast(head, 16, throwOnEndOfStream: false);
        var little = head[0] == (byte)'I';
        var big = U16(head[2..], little) == 43;
        var offset = big ? (long)U64(head[8..], little) : U32(head[4..], little);
        return new TiffDirectory(file, big, little).Load(offset);
    }

    /// <summary>Reads another directory of the same file.</summary>
    /// <exception cref="InvalidDataException">It does not lie in the file.</exception>
    public TiffDirectory At(long offset) => new TiffDirectory(_file, _big, LittleEndian).Load(offset);

    public bool Has(int tag) => _entries.ContainsKey(tag);

    /// <summary>The first number under a tag, or the fallback.</summary>
    public long Number(int tag, long fallback) => Numbers(tag) is [var first, ..] ? first : fallback;

    /// <summary>All whole numbers under a tag; empty when the tag is missing or does not lie in the file.</summary>
    public long[] Numbers(int tag)
    {
        if (Bytes(tag) is not { } bytes) return [];
        var entry = _entries[tag];
        var numbers = new long[entry.Count];
        for (var i = 0; i < numbers.Length; i++) numbers[i] = Whole(entry.Type, bytes.AsSpan(i * SizeOf(entry.Type)));
        return numbers;
    }

    /// <summary>A rational or floating-point value; null when missing or not finite.</summary>
    public double? Real(int tag)
    {
        if (Bytes(tag) is not { } b || _entries[tag].Count == 0) return null;
        var value = _entries[tag].Type switch
        {
            5 => U32(b, LittleEndian) / (double)U32(b.AsSpan(4), LittleEndian),
            10 => (int)U32(b, LittleEndian) / (double)(int)U32(b.AsSpan(4), LittleEndian),
            11 => BitConverter.UInt32BitsToSingle(U32(b, LittleEndian)),
            12 => BitConverter.UInt64BitsToDouble(U64(b, LittleEndian)),
            var type => Whole(type, b),
        };
        return double.IsFinite(value) ? value : null;
    }

    /// <summary>Text under a tag, without the closing zero; null when missing or empty.</summary>
    public string? Text(int tag)
    {
        if (Bytes(tag) is not { } bytes) return null;
        var end = Array.IndexOf(bytes, (byte)0);
        var text = Encoding.UTF8.GetString(bytes, 0, end < 0 ? bytes.Length : end).Trim();
        return text.Length == 0 ? null : text;
    }

    /// <summary>The raw bytes under a tag; null when the tag is missing or its value does not lie in the file.</summary>
    public byte[]? Bytes(int tag)
    {
        if (!_entries.TryGetValue(tag, out var entry)) return null;
        var size = entry.Count * SizeOf(entry.Type);
        if (size > int.MaxValue || entry.Offset > _file.Length - size) return null;
        var bytes = new byte[size];
        return Fill(bytes, entry.Offset) ? bytes : null;
    }

    private TiffDirectory Load(long offset)
    {
        var (countSize, entrySize, inline) = _big ? (8, 20, 8) : (2, 12, 4);
        Span<byte> head = stackalloc byte[8];
        if (offset < 8 || offset > _file.Length - countSize || !Fill(head[..countSize], offset)) throw Outside();
        var count = _big ? (long)U64(head, LittleEndian) : U16(head, LittleEndian);
        if (count is < 1 or > MaxEntries) throw new InvalidDataException($"A directory of {count} entries.");
        var table = new byte[count * entrySize + inline];
        var at = offset + countSize;
        // The offset of the next directory may be cut off when this is the last: entries alone must be there.
        if (at + count * entrySize > _file.Length) throw Outside();
        _file.Position = at;
        _file.ReadAtLeast(table, table.Length, throwOnEndOfStream: false);
        for (var i = 0; i < count; i++) Add(table.AsSpan(i * entrySize, entrySize), at + i * entrySize, inline);
        End = Math.Max(End, at + table.Length);
        Next = Address(table.AsSpan((int)count * entrySize));
        return this;
    }

    private void Add(ReadOnlySpan<byte> entry, long at, int inline)
    {
        var (tag, type) = (U16(entry, LittleEndian), U16(entry[2..], LittleEndian));
        var count = Address(entry[4..]);
        if (SizeOf(type) == 0 || count < 0 || count > _file.Length) return;
        var fits = count * SizeOf(type) <= inline;
        var offset = fits ? at + 4 + inline : Address(entry[(4 + inline)..]);
        if (offset < 0) return;
        _entries[tag] = new Entry(type, count, offset);
        End = Math.Max(End, offset + count * SizeOf(type));
    }

    private long Address(ReadOnlySpan<byte> at) => _big ? (long)U64(at, LittleEndian) : U32(at, LittleEndian);

    private bool Fill(Span<byte> bytes, long offset)
    {
        if (offset < 0 || offset > _file.Length - bytes.Length) return false;
        _file.Position = offset;
        _file.ReadExactly(bytes);
        return true;
    }

    private long Whole(int type, ReadOnlySpan<byte> at) => type switch
    {
        1 or 2 or 7 => at[0],
        6 => (sbyte)at[0],
        3 => U16(at, LittleEndian),
        8 => (short)U16(at, LittleEndian),
        4 or 13 => U32(at, LittleEndian),
        9 => (int)U32(at, LittleEndian),
        16 or 17 or 18 => (long)U64(at, LittleEndian),
        _ => 0,
    };

    private static int SizeOf(int type) => type switch { 1 or 2 or 6 or 7 => 1, 3 or 8 => 2, 4 or 9 or 11 or 13 => 4, 5 or 10 or 12 or 16 or 17 or 18 => 8, _ => 0 };

    private static ushort U16(ReadOnlySpan<byte> b, bool little) => little ? BinaryPrimitives.ReadUInt16LittleEndian(b) : BinaryPrimitives.ReadUInt16BigEndian(b);

    private static uint U32(ReadOnlySpan<byte> b, bool little) => little ? BinaryPrimitives.ReadUInt32LittleEndian(b) : BinaryPrimitives.ReadUInt32BigEndian(b);

    private static ulong U64(ReadOnlySpan<byte> b, bool little) => little ? BinaryPrimitives.ReadUInt64LittleEndian(b) : BinaryPrimitives.ReadUInt64BigEndian(b);

    private static InvalidDataException Outside() => new("A directory lies outside the file.");

    private readonly record struct Entry(int Type, long Count, long Offset);
}
