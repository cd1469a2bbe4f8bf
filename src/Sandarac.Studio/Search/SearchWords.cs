using System.Globalization;
using System.Text;

namespace Sandarac.Studio;

/// <summary>How words are folded and cut, the same for what is stored and what is asked: lower case, without accents, letters and digits only.</summary>
internal static class SearchWords
{
    /// <summary>The words of a text, in order.</summary>
    public static IReadOnlyList<string> Of(string? text) => Folded(text).Split(' ', StringSplitOptions.RemoveEmptyEntries);

    /// <summary>A text as it is stored to be searched.</summary>
    public static string Folded(string? text)
    {
        var folded = new StringBuilder();
        foreach (var c in (text ?? "").Normalize(NormalizationForm.FormKD))
            if (char.GetUnicodeCategory(c) is not (UnicodeCategory.NonSpacingMark or UnicodeCategory.EnclosingMark))
                folded.Append(char.IsLetterOrDigit(c) || char.IsSurrogate(c) ? char.ToLowerInvariant(c) : ' ');
        return folded.ToString();
    }

    /// <summary>Whether a text holds words that begin with each of those asked for.</summary>
    public static bool Hold(string text, IReadOnlyList<string> wanted)
    {
        var words = Of(text);
        return wanted.All(w => words.Any(word => word.StartsWith(w, StringComparison.Ordinal)));
    }
}
