using System.Buffers.Binary;
using Sandarac.Imaging.Tiff;

namespace Sandarac.Imaging.Formats;

/// <summary>Whether all of a file is there, told from the lengths it states itself. JPEG states none: its decoder finds out.</summary>
internal static class Completeness
{
    /// <exception cref="InputProblem">The file ends before what it states.</exception>
    public static void Check(FileStream file, string kind, TiffDirectory? tiff)
    {
        var needed = kind switch
        {
            "tiff" => TiffEnd(tiff!),
            "png" => PngEnd(file),
            "webp" => 8L + BinaryPrimitives.ReadUInt32LittleEndian(Bytes(file, 4, 4)),
            "avif" or "heif" => BoxEnd(file),
            _ => 0,
        };
        if (needed <= file.Length) return;
        var name = Path.GetFileName(file.Name);
        throw new InputProblem("file-truncated", name, $"{name} ends early ({Amounts(file.Length, needed)}).", "Copy it again from the camera card or from where it was made.");
    }

    private static long TiffEnd(TiffDirectory tiff)
    {
        var tiled = tiff.Has(TiffTag.TileOffsets);
        var offsets = tiff.Numbers(tiled ? TiffTag.TileOffsets : TiffTag.StripOffsets);
        var counts = tiff.Numbers(tiled ? TiffTag.TileByteCounts : TiffTag.StripByteCounts);
        var end = tiff.End;
        for (var i = 0; i < Math.Min(offsets.Length, counts.Length); i++)
            if (offsets[i] > 0 && counts[i] > 0 && counts[i] < long.MaxValue - offsets[i]) end = Math.Max(end, offsets[i] + counts[i]);
        return end;
    }

    /// <summary>Walks the chunks (PNG, 3rd edition, section 5.3): length, type, data, check sum; IEND is the last.</summary>
    private static long PngEnd(FileStream file)
    {
        for (var at = 8L; at + 12 <= file.Length;)
        {
            var head = Bytes(file, at, 8);
            at += 12L + BinaryPrimitives.ReadUInt32BigEndian(head);
            if (head.AsSpan(4).SequenceEqual("IEND"u8)) return at;
            if (at + 12 > file.Length) return at + 12;
        }
        return 20;
    }

    /// <summary>Walks the top-level boxes (ISO/IEC 14496-12, section 4.2).</summary>
    private static long BoxEnd(FileStream file)
    {
        var at = 0L;
        while (at + 16 <= file.Length)
        {
            var head = Bytes(file, at, 16);
            var size = (long)BinaryPrimitives.ReadUInt32BigEndian(head);
            if (size == 1) size = (long)BinaryPrimitives.ReadUInt64BigEndian(head.AsSpan(8));
            if (size == 0) return file.Length;
            if (size < 8 || size > long.MaxValue - at) return file.Length;
            at += size;
        }
        return at;
    }

    private static byte[] Bytes(FileStream file, long at, int count)
    {
        var bytes = new byte[count];
        file.Position = at;
        file.ReadAtLeast(bytes, count, throwOnEndOfStream: false);
        return bytes;
    }

    private static string Amounts(long has, long needed)
    {
        var (unit, name) = needed >= 1_000_000 ? (1e6, "MB") : needed >= 1000 ? (1e3, "kB") : (1.0, "bytes");
        // One decimal where whole numbers would read "31 of 31".
        var format = Math.Round(has / unit) == Math.Round(needed / unit) ? "0.###" : "0";
        return string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{(has / unit).ToString(format, System.Globalization.CultureInfo.InvariantCulture)} of {(needed / unit).ToString(format, System.Globalization.CultureInfo.InvariantCulture)} {name}");
    }
}
