using System.Text.RegularExpressions;

namespace Sandarac.Studio.Archive.BagIt;

/// <summary>A line of a manifest.</summary>
/// <param name="Hash">Lower-case hexadecimal.</param>
/// <param name="Path">The path, decoded, without a leading "./".</param>
internal sealed record ManifestLine(string Hash, string Path);

/// <summary>A list of files with their hashes: of the payload, or of the tag files.</summary>
/// <param name="FileName">"manifest-sha512.txt".</param>
/// <param name="Algorithm">"sha512".</param>
/// <param name="Lines">Its sound lines, each path once.</param>
internal sealed partial record Manifest(string FileName, string Algorithm, IReadOnlyList<ManifestLine> Lines)
{
    /// <summary>The hash that a file's name stands for; null when the name is not that of a manifest.</summary>
    public static (string Algorithm, bool OfTags)? Named(string fileName) => Name().Match(fileName) is { Success: true } m ? (m.Groups[2].Value.ToLowerInvariant(), m.Groups[1].Length > 0) : null;

    /// <summary>Reads one, noting what is wrong with it.</summary>
    public static Manifest Read(string fileName, string text, BagVersion version, List<BagNote> problems, List<BagNote> warnings)
    {
        var (algorithm, ofTags) = Named(fileName)!.Value;
        var hashes = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var line in TagText.Lines(text).Where(l => l.Length > 0))
        {
            if (Parse(fileName, line, algorithm, version, problems, warnings) is not { } read) continue;
            if (BagPath.Problem(read.Path) is { } reason) problems.Add(new BagNote("path-escape", fileName, $"The path \"{read.Path}\" {reason}."));
            else if (BagPath.IsPayload(read.Path) == ofTags) problems.Add(new BagNote("manifest-scope", fileName, $"The path \"{read.Path}\" does not belong into this manifest."));
            else if (hashes.TryAdd(read.Path, read.Hash)) continue;
            else if (hashes[read.Path] != read.Hash || !version.IsDraft) problems.Add(new BagNote("listed-twice", fileName, $"The path \"{read.Path}\" is listed twice."));
            else warnings.Add(new BagNote("listed-twice", fileName, $"The path \"{read.Path}\" is listed twice with the same hash."));
        }
        return new Manifest(fileName, algorithm, [.. hashes.Select(h => new ManifestLine(h.Value, h.Key))]);
    }

    private static ManifestLine? Parse(string fileName, string line, string algorithm, BagVersion version, List<BagNote> problems, List<BagNote> warnings)
    {
        if (Entry().Match(line) is not { Success: true } m || (Digest.Digits.TryGetValue(algorithm, out var digits) && m.Groups[1].Length != digits))
        {
            problems.Add(new BagNote("manifest-line", fileName, $"The line \"{(line.Length > 80 ? line[..80] + "..." : line)}\" is not a hash and a path."));
            return null;
        }
        if (m.Groups[2].Length > 0) warnings.Add(new BagNote("md5sum-mark", fileName, "Its lines have the asterisk of another program before the path."));
        var path = BagPath.Decode(m.Groups[3].Value, percent: !version.IsDraft);
        if (!path.StartsWith("./", StringComparison.Ordinal)) return new ManifestLine(m.Groups[1].Value.ToLowerInvariant(), path);
        warnings.Add(new BagNote("relative-path", fileName, $"The path \"{path}\" begins with a dot."));
        return new ManifestLine(m.Groups[1].Value.ToLowerInvariant(), path[2..]);
    }

    [GeneratedRegex("^(tag)?manifest-([A-Za-z0-9]+)\\.txt$")]
    private static partial Regex Name();

    [GeneratedRegex("^([0-9A-Fa-f]+)[ \\t]+(\\*?)(.+)$", RegexOptions.Singleline)]
    private static partial Regex Entry();
}
