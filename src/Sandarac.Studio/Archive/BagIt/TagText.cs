using System.Text;

namespace Sandarac.Studio.Archive.BagIt;

/// <summary>Tag files as text. What cannot be decoded is an error, never a question mark.</summary>
internal static class TagText
{
    public static readonly Encoding Utf8 = new UTF8Encoding(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    /// <summary>An encoding by its registered name.</summary>
    /// <exception cref="InvalidDataException">It is not one of those that any machine has.</exception>
    public static Encoding EncodingOf(string name) => name.ToUpperInvariant() switch
    {
        "UTF-8" => Utf8,
        "UTF-16" or "UTF-16BE" => new UnicodeEncoding(bigEndian: true, byteOrderMark: true, throwOnInvalidBytes: true),
        "UTF-16LE" => new UnicodeEncoding(bigEndian: false, byteOrderMark: true, throwOnInvalidBytes: true),
        "ISO-8859-1" => Encoding.Latin1,
        "US-ASCII" => Encoding.GetEncoding("us-ascii", EncoderFallback.ExceptionFallback, DecoderFallback.ExceptionFallback),
        _ => throw new InvalidDataException($"states the encoding {name}, which is not one of UTF-8, UTF-16, ISO-8859-1 and US-ASCII"),
    };

    /// <summary>Decodes; a byte order mark decides between the two of UTF-16 and is left out.</summary>
    /// <exception cref="InvalidDataException">The bytes are not in this encoding.</exception>
    public static string Decode(byte[] bytes, Encoding encoding)
    {
        try
        {
            var actual = encoding is UnicodeEncoding && bytes is [0xFF, 0xFE, ..] ? EncodingOf("UTF-16LE") : encoding;
            return actual.GetString(bytes) is ['\uFEFF', .. var rest] ? rest : actual.GetString(bytes);
        }
        catch (ArgumentException e)
        {
            throw new InvalidDataException($"is not in {encoding.WebName}", e);
        }
    }

    /// <summary>Lines, ended by line feed, carriage return, or both; without a last empty one.</summary>
    public static IReadOnlyList<string> Lines(string text)
    {
        var lines = text.Replace("\r\n", "\n", StringComparison.Ordinal).Replace('\r', '\n').Split('\n');
        return lines[^1].Length == 0 ? lines[..^1] : lines;
    }
}
