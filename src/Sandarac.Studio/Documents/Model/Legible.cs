using System.Text;

namespace Sandarac.Studio.Documents.Model;

/// <summary>Text that every format can hold: XML and PDF have no room for control signs, and signs that turn the direction of writing could make a title read as another.</summary>
internal static class Legible
{
    /// <summary>The text with blanks for control signs, without turning signs and soft hyphens; halves of letters become U+FFFD. Line ends stay.</summary>
    public static string Of(string text) => IsLegible(text) ? text : Cleaned(text);

    private static bool IsLegible(string text) => !text.AsSpan().ContainsAnyExceptInRange(' ', '~');

    private static string Cleaned(string text)
    {
        var clean = new StringBuilder(text.Length);
        foreach (var rune in text.ReplaceLineEndings("\n").EnumerateRunes())
            if (rune.Value == '\n') clean.Append('\n');
            else if (Rune.IsControl(rune) || rune.Value is 0x2028 or 0x2029) clean.Append(' ');
            else if (rune.Value is not (0xAD or 0x200E or 0x200F or 0x061C or 0xFEFF or 0xFFFE or 0xFFFF or (>= 0x202A and <= 0x202E) or (>= 0x2066 and <= 0x2069))) clean.Append(rune);
        return clean.ToString();
    }
}
