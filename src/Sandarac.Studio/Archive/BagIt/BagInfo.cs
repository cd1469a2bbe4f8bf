using System.Globalization;
using System.Text.RegularExpressions;

namespace Sandarac.Studio.Archive.BagIt;

/// <summary>bag-info.txt: what the sender says of the bag, label by label. In 0.93 to 0.95 it was package-info.txt.</summary>
internal static partial class BagInfo
{
    public static string FileName(BagVersion version) => version is { Major: 0, Minor: < 96 } ? "package-info.txt" : "bag-info.txt";

    /// <summary>Its labels and values in their order; an indented line continues the one before.</summary>
    public static IReadOnlyList<(string Label, string Value)> Read(string fileName, string text, List<BagNote> problems)
    {
        List<(string Label, string Value)> pairs = [];
        foreach (var line in TagText.Lines(text).Where(l => l.Trim().Length > 0))
        {
            if (line[0] is ' ' or '\t' && pairs.Count > 0) pairs[^1] = (pairs[^1].Label, $"{pairs[^1].Value} {line.Trim()}");
            else if (Pair().Match(line) is { Success: true } m) pairs.Add((m.Groups[1].Value, m.Groups[2].Value.Trim()));
            else problems.Add(new BagNote("info-line", fileName, "A line is not a label, a colon and a value."));
        }
        return pairs;
    }

    /// <summary>Whether a Payload-Oxum, "octets.files", is that of a payload.</summary>
    public static bool IsOxumOf(string oxum, long bytes, int files) => oxum == Oxum(bytes, files);

    public static string Oxum(long bytes, int files) => string.Create(CultureInfo.InvariantCulture, $"{bytes}.{files}");

    /// <summary>As a line; what a person wrote cannot begin another.</summary>
    public static string Line(string label, string value) => $"{label}: {string.Join(' ', value.Split((char[])['\r', '\n', '\u2028', '\u2029'], StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))}\n";

    [GeneratedRegex(@"^([^:\s][^:]*?)[ \t]*:(.*)$")]
    private static partial Regex Pair();
}
