using System.Text;
using System.Text.RegularExpressions;

namespace Sandarac.Studio.Archive.BagIt;

/// <summary>Paths in a bag: which may be used, and how manifests write them.</summary>
internal static partial class BagPath
{
    /// <summary>Why a path may not be used, as the end of a sentence; null when it may. Refused on every machine, whichever would follow it.</summary>
    public static string? Problem(string path) => path switch
    {
        "" => "is empty",
        ['/' or '~', ..] => "leads to a place of the machine itself",
        [>= 'A' and <= 'Z' or >= 'a' and <= 'z', ':', ..] => "names a drive",
        _ when path.Contains('\\') => "holds a backslash, which leads elsewhere on some machines",
        _ when path.Any(c => c == '\uFFFD' || (char.IsControl(c) && c is not ('\r' or '\n'))) => "holds a sign that is no letter",
        _ when path.Split('/').Any(s => s is "" or "." or "..") => "leads out of its folder, or nowhere",
        _ => null,
    };

    public static bool IsPayload(string path) => path.StartsWith("data/", StringComparison.Ordinal);

    /// <summary>Files that desktops leave in folders, which nobody meant to keep.</summary>
    public static bool IsSystemFile(string path) => path[(path.LastIndexOf('/') + 1)..] is ".DS_Store" or "Thumbs.db" or "desktop.ini" || path.StartsWith("__MACOSX/", StringComparison.Ordinal);

    /// <summary>As manifests write it: line ends and the percent sign in percent-encoding (RFC 8493, 2.1.3).</summary>
    public static string Encode(string path) => path.Replace("%", "%25", StringComparison.Ordinal).Replace("\r", "%0D", StringComparison.Ordinal).Replace("\n", "%0A", StringComparison.Ordinal);

    /// <summary>From what a manifest has. Before 1.0 the percent sign itself was not encoded; other signs never are: "%7E" is a name.</summary>
    public static string Decode(string written, bool percent) => Encoded().Replace(written, m => m.Value[1..] switch
    {
        "25" => percent ? "%" : m.Value,
        ['0', 'D' or 'd'] => "\r",
        _ => "\n",
    });

    /// <summary>What a path would be on a machine that tells neither case nor the two ways to write an accent apart; the path itself when it cannot be composed.</summary>
    public static string Folded(string path)
    {
        try
        {
            return path.Normalize(NormalizationForm.FormC).ToUpperInvariant();
        }
        catch (ArgumentException)
        {
            return path;
        }
    }

    [GeneratedRegex("%(?:25|0[AaDd])")]
    private static partial Regex Encoded();
}
