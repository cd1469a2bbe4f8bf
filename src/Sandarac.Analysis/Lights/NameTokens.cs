using System.Globalization;
using System.Text.RegularExpressions;

namespace Sandarac.Analysis.Lights;

/// <summary>A word of a name.</summary>
/// <param name="Text">As written: "plate1".</param>
/// <param name="Word">Its letters, upper case: "PLATE"; empty for a bare number.</param>
/// <param name="Number">The number at its end: 1; null for none.</param>
internal sealed record NameToken(string Text, string Word, int? Number)
{
    /// <summary>Upper case, digits included: "S1".</summary>
    public string Upper => Text.ToUpperInvariant();
}

/// <summary>Cuts names into words, so that a code counts only as a whole word: "IR" is not in "iris", nor "RL" in "pearl".</summary>
internal static partial class NameTokens
{
    /// <summary>The words, cut at everything that is not a letter or digit and where a lower-case letter meets an upper-case one.</summary>
    public static IReadOnlyList<NameToken> Of(string name) => 
        [.. Words().Matches(Joined().Replace(name, m => string.Concat(m.Value.Split('-', '_', ' ')))).Select(m => Parse(m.Value))];

    private static NameToken Parse(string text)
    {
        var digits = text.AsSpan().TrimEnd("0123456789").Length;
        var number = digits < text.Length && int.TryParse(text.AsSpan(digits), NumberStyles.None, CultureInfo.InvariantCulture, out var n) ? n : (int?)null;
        return new NameToken(text, text[..digits].ToUpperInvariant(), number);
    }

    // Terms of two words that are one term: X-ray, cross-section, close-up, flat field, dark frame.
    [GeneratedRegex(@"(?i)(?<![\p{L}\d])(x[-_ ]ray|x[-_ ]section|cross[-_ ]section|close[-_ ]up|flat[-_ ]field|dark[-_ ]frame|x[-_ ]radiograph)")]
    private static partial Regex Joined();

    [GeneratedRegex(@"\p{Lu}*\p{Ll}+\d*|\p{Lu}+(?!\p{Ll})\d*|\d+")]
    private static partial Regex Words();
}
