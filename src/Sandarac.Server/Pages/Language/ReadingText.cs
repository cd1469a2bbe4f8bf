using System.Resources;

namespace Sandarac.Server.Pages.Language;

/// <summary>What readings, and their inputs, parameters, figures and maps are called in the request's language, by the English text of the declaration. Every name
/// has its translation, of the longer texts many.</summary>
internal static class ReadingText
{
    private static readonly ResourceManager Names = new("Sandarac.Server.Pages.Language.Readings", typeof(ReadingText).Assembly);

    /// <summary>The name in the request's language, else in English.</summary>
    public static string Named(string english) => Translation(english) ?? english;

    /// <summary>A name, a summary or a parameter's help in the request's language; null when there is none.</summary>
    public static string? Translation(string english) => PageText.Find(Names, english);
}
