using System.Text.RegularExpressions;

namespace Sandarac.Studio.Archive.BagIt;

/// <summary>fetch.txt: files that the sender left out and that could be had elsewhere. Nothing is ever fetched.</summary>
internal static partial class FetchList
{
    /// <summary>The paths it names, noting what is wrong with it.</summary>
    public static IReadOnlyList<string> Read(string text, BagVersion version, List<BagNote> problems)
    {
        List<string> paths = [];
        foreach (var line in TagText.Lines(text).Where(l => l.Length > 0))
        {
            if (Entry().Match(line) is not { Success: true } m)
            {
                problems.Add(new BagNote("fetch-line", "fetch.txt", "A line is not an address, a length and a path."));
                continue;
            }
            var path = BagPath.Decode(m.Groups[1].Value, percent: !version.IsDraft);
            if (path.StartsWith("./", StringComparison.Ordinal)) path = path[2..];
            if (BagPath.Problem(path) is { } reason) problems.Add(new BagNote("path-escape", "fetch.txt", $"The path \"{path}\" {reason}."));
            else if (!BagPath.IsPayload(path)) problems.Add(new BagNote("manifest-scope", "fetch.txt", $"The path \"{path}\" is not in the payload."));
            else paths.Add(path);
        }
        return paths;
    }

    [GeneratedRegex(@"^\S+[ \t]+(?:[0-9]+|-)[ \t]+(.+)$", RegexOptions.Singleline)]
    private static partial Regex Entry();
}
