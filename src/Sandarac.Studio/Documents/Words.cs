using Sandarac.Analysis.Declaring;
using Sandarac.Imaging;
using Sandarac.Studio.Documents.Phrasing;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Documents;

/// <summary>How screens and the command line, which are in English, say what documents say.</summary>
public static class Words
{
    /// <inheritdoc cref="Phrases.Date(DateTime)"/>
    public static string Date(DateTime utc) => Phrases.English.Date(utc);

    /// <inheritdoc cref="Phrases.Time"/>
    public static string Time(DateTime utc) => Phrases.English.Time(utc);

    /// <inheritdoc cref="Phrases.LightOf"/>
    public static string LightOf(Photograph photograph) => Phrases.English.LightOf(photograph);

    /// <inheritdoc cref="Phrases.Lamp"/>
    public static string Lamp(Photograph photograph) => Phrases.English.Lamp(photograph);

    /// <inheritdoc cref="Phrases.SubjectOf"/>
    public static string SubjectOf(Photograph photograph) => Phrases.English.SubjectOf(photograph);

    /// <inheritdoc cref="Phrases.Size"/>
    public static string Size(Painting painting) => Phrases.English.Size(painting);

    /// <inheritdoc cref="Phrases.Spread"/>
    public static string Spread(Painting painting) => Phrases.English.Spread(painting);

    /// <inheritdoc cref="Phrases.Origin"/>
    public static string Origin(ScaleOrigin origin) => Phrases.English.Origin(origin);

    /// <inheritdoc cref="Phrases.VerdictOf"/>
    public static string VerdictOf(Verdict? verdict) => Phrases.English.VerdictOf(verdict);

    /// <summary>A capital at the beginning, a full stop at the end.</summary>
    public static string Sentence(string text) => text.Length == 0 ? text : char.ToUpperInvariant(text[0]) + text[1..] + (text.EndsWith('.') ? "" : ".");

    /// <summary>"Sandarac 0.1.0 (2e7fd2a)": the version, and the first letters of the source's commit when it is known.</summary>
    public static string Software()
    {
        var parts = Analysis.Declaring.RunRecord.Software.Split('+', 2);
        return parts.Length == 2 ? $"Sandarac {parts[0]} ({parts[1][..Math.Min(7, parts[1].Length)]})" : $"Sandarac {parts[0]}";
    }

    /// <summary>"0.43 mm": a measure of uncertainty itself, which bears two figures.</summary>
    public static string Mm(double mm) => Rounding.Significant(mm, 2) + " mm";
}
