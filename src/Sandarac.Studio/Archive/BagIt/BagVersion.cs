using System.Text;
using System.Text.RegularExpressions;

namespace Sandarac.Studio.Archive.BagIt;

/// <summary>A version of BagIt: 0.93 to 0.97, the drafts, and 1.0, which is RFC 8493.</summary>
internal readonly record struct BagVersion(int Major, int Minor)
{
    public static readonly BagVersion One = new(1, 0);

    public bool IsKnown => this == One || (Major == 0 && Minor is >= 93 and <= 97);

    /// <summary>Before RFC 8493 more was left to taste.</summary>
    public bool IsDraft => Major == 0;

    /// <inheritdoc/>
    public override string ToString() => $"{Major}.{Minor}";
}

/// <summary>What bagit.txt declares: the version, and how the other tag files are encoded.</summary>
/// <param name="Version">The version.</param>
/// <param name="Encoding">Encoding of the tag files, bagit.txt itself excepted, which is UTF-8.</param>
internal sealed partial record BagDeclaration(BagVersion Version, Encoding Encoding)
{
    /// <summary>Reads bagit.txt.</summary>
    /// <exception cref="InvalidDataException">It is not one; the message is the end of a sentence that begins with the file's name.</exception>
    public static BagDeclaration Read(byte[] bytes)
    {
        if (bytes.AsSpan().StartsWith(Encoding.UTF8.Preamble)) throw new InvalidDataException("begins with a byte order mark");
        var lines = TagText.Lines(TagText.Decode(bytes, TagText.Utf8));
        if (lines is not [var first, var second]) throw new InvalidDataException($"has {lines.Count} lines instead of two");
        if (VersionLine().Match(first) is not { Success: true } version) throw new InvalidDataException("does not state a BagIt version in its first line");
        if (!int.TryParse(version.Groups[1].Value, out var major) || !int.TryParse(version.Groups[2].Value, out var minor) || new BagVersion(major, minor) is not { IsKnown: true } stated)
            throw new InvalidDataException($"states the version {version.Groups[1].Value}.{version.Groups[2].Value}, which is not known");
        if (EncodingLine().Match(second) is not { Success: true } encoding) throw new InvalidDataException("does not state the tag files' encoding in its second line");
        // The drafts allowed blanks about the colon and at the end; RFC 8493 has one blank after it and no other.
        if (!stated.IsDraft && (first != $"BagIt-Version: {stated}" || second != $"Tag-File-Character-Encoding: {encoding.Groups[1].Value}")) throw new InvalidDataException("has blanks where RFC 8493 allows none");
        return new BagDeclaration(stated, TagText.EncodingOf(encoding.Groups[1].Value));
    }

    [GeneratedRegex(@"^BagIt-Version[ \t]*:[ \t]*([0-9]{1,4})\.([0-9]{1,4})[ \t]*$")]
    private static partial Regex VersionLine();

    [GeneratedRegex(@"^Tag-File-Character-Encoding[ \t]*:[ \t]*([A-Za-z0-9_.:-]+)[ \t]*$")]
    private static partial Regex EncodingLine();
}
