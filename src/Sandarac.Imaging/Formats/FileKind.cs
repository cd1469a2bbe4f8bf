using System.Text;

namespace Sandarac.Imaging.Formats;

/// <summary>What a file is by its first bytes, whatever its name says.</summary>
internal static class FileKind
{
    /// <summary>Longest stretch that <see cref="Of"/> looks at.</summary>
    public const int HeadBytes = 512;

    /// <summary>The kind, or null when it is none that is opened.</summary>
    public static string? Of(ReadOnlySpan<byte> head)
    {
        if (head.StartsWith("II*\0"u8) || head.StartsWith("MM\0*"u8) || head.StartsWith("II+\0\b\0\0\0"u8) || head.StartsWith("MM\0+\0\b\0\0"u8)) return "tiff";
        if (head.StartsWith((ReadOnlySpan<byte>)[0x89, (byte)'P', (byte)'N', (byte)'G', 13, 10, 26, 10])) return "png";
        if (head.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xD8, 0xFF])) return "jpeg";
        if (head.Length >= 12 && head.StartsWith("RIFF"u8) && head[8..12].SequenceEqual("WEBP"u8)) return "webp";
        if (head.Length < 12 || !head[4..8].SequenceEqual("ftyp"u8)) return null;
        var brands = Encoding.ASCII.GetString(head[8..Math.Min(head.Length, 64)]);
        if (brands.Contains("avif", StringComparison.Ordinal) || brands.Contains("avis", StringComparison.Ordinal)) return "avif";
        return brands.Contains("hei", StringComparison.Ordinal) || brands.Contains("mif1", StringComparison.Ordinal) ? "heif" : null;
    }

    /// <summary>What else it might be, in words that finish "It is ...".</summary>
    public static string Guess(ReadOnlySpan<byte> head)
    {
        if (head.StartsWith("%PDF"u8)) return "a PDF document";
        if (head.StartsWith("PK"u8)) return "a zip archive or office document";
        if (head.StartsWith("8BPS"u8)) return "a layered Photoshop file";
        if (head.StartsWith((ReadOnlySpan<byte>)[0, 0, 0, 12, (byte)'j', (byte)'P'])) return "a JPEG 2000 image, which is not read here";
        if (head.StartsWith("GIF8"u8)) return "a GIF picture, which is not read here";
        if (head.StartsWith("BM"u8)) return "a Windows bitmap, which is not read here";
        if (head.StartsWith("FUJIFILM"u8)) return "a camera's raw file";
        return IsText(head) ? "text, not an image" : "not an image of a kind that is read here";
    }

    /// <summary>The kind that a suffix promises; null for suffixes that promise none.</summary>
    public static string? BySuffix(string path) => Path.GetExtension(path).ToUpperInvariant() switch
    {
        ".TIF" or ".TIFF" or ".TF8" or ".BTF" => "tiff",
        ".PNG" => "png",
        ".JPG" or ".JPEG" => "jpeg",
        ".WEBP" => "webp",
        ".AVIF" => "avif",
        ".HEIC" or ".HEIF" => "heif",
        _ => null,
    };

    private static bool IsText(ReadOnlySpan<byte> head)
    {
        foreach (var b in head)
            if (b is < 32 and not (9 or 10 or 12 or 13 or 27)) return false;
        return true;
    }
}
