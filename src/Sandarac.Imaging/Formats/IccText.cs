using System.Buffers.Binary;
using System.Text;

namespace Sandarac.Imaging.Formats;

/// <summary>The name an ICC profile gives itself: its <c>desc</c> tag, as text (ICC.1:2001, version 2) or in several languages (ICC.1:2010, version 4).</summary>
internal static class IccText
{
    private const int TagTable = 128;

    /// <summary>The description; null when the profile has none that can be read.</summary>
    public static string? Description(ReadOnlySpan<byte> profile)
    {
        if (profile.Length < TagTable + 4) return null;
        var count = Math.Min(Number(profile, TagTable), 200);
        for (var i = 0; i < count; i++)
        {
            var entry = TagTable + 4 + 12 * i;
            if (entry + 12 > profile.Length) return null;
            if (!profile.Slice(entry, 4).SequenceEqual("desc"u8)) continue;
            var (offset, size) = (Number(profile, entry + 4), Number(profile, entry + 8));
            return offset < 0 || size < 16 || (long)offset + size > profile.Length ? null : Text(profile.Slice(offset, size));
        }
        return null;
    }

    private static string? Text(ReadOnlySpan<byte> tag)
    {
        if (tag.StartsWith("desc"u8)) return Clean(Encoding.ASCII.GetString(tag.Slice(12, Math.Clamp(Number(tag, 8), 0, tag.Length - 12))));
        if (!tag.StartsWith("mluc"u8)) return null;
        var (records, size) = (Number(tag, 8), Number(tag, 12));
        string? first = null;
        for (var i = 0; i < records && size >= 12 && 16 + (i + 1L) * size <= tag.Length; i++)
        {
            var record = 16 + i * size;
            var (length, offset) = (Number(tag, record + 4), Number(tag, record + 8));
            if (length < 0 || offset < 0 || (long)offset + length > tag.Length) continue;
            var text = Clean(Encoding.BigEndianUnicode.GetString(tag.Slice(offset, length)));
            if (tag.Slice(record, 2).SequenceEqual("en"u8)) return text;
            first ??= text;
        }
        return first;
    }

    private static string? Clean(string text) => text.Split('\0')[0].Trim() is { Length: > 0 } t ? t : null;

    private static int Number(ReadOnlySpan<byte> b, int at) => BinaryPrimitives.ReadInt32BigEndian(b[at..]);
}
