using System.Collections;
using System.Collections.Concurrent;
using System.Globalization;
using System.Resources;
using System.Text.RegularExpressions;

namespace Sandarac.Server.Pages.Language;

/// <summary>What the studio says in English wherever it is asked, and what the record keeps in English: problems, reasons, notes. Record.LANGUAGE.resx
/// holds translations by the English sentence with places {0}, {1} ... for what differs, {0:word} for a word that is itself in the table; a sentence that fits none stays English.</summary>
internal static class RecordText
{
    private static readonly ResourceManager Sentences = new("Sandarac.Server.Pages.Language.Record", typeof(RecordText).Assembly);
    private static readonly ConcurrentDictionary<string, IReadOnlyList<(Regex Sentence, string Translation)>> ByLanguage = new();

    /// <summary>In the request's language where there is a translation, else English.</summary>
    public static string Told(string english) => Translation(english) ?? english;

    /// <summary>The translation; null when there is none, and for a request in English.</summary>
    public static string? Translation(string english) => PageText.PageLanguage == "en" ? null : Sentence(english, Listed) ?? ReadingText.Translation(english);

    /// <summary>Word by word as it stands in the table, else with what differs filled in.</summary>
    private static string? Sentence(string english, Func<string, string?>? before = null) => PageText.Find(Sentences, english) ?? before?.Invoke(english) ?? Filled(english);

    /// <summary>A list in commas of which every part has a translation: "red, shadows".</summary>
    private static string? Listed(string english)
    {
        var parts = english.Split(", ");
        var translations = parts.Length < 2 ? [] : parts.Select(p => Sentence(p)).OfType<string>().ToList();
        return translations.Count == parts.Length ? string.Join(", ", translations) : null;
    }

    private static string? Filled(string english)
    {
        foreach (var (sentence, translation) in ByLanguage.GetOrAdd(PageText.PageLanguage, Patterns))
        {
            if (sentence.Match(english) is { Success: true } match) return string.Format(CultureInfo.InvariantCulture, translation, [.. match.Groups.Values.Skip(1).Select(g => new Part(g.Value))]);
        }
        return null;
    }

    /// <summary>The sentences that have places, those with most words of their own first.</summary>
    private static IReadOnlyList<(Regex Sentence, string Translation)> Patterns(string language) =>
    [
        .. Sentences.GetResourceSet(CultureInfo.GetCultureInfo(language), createIfNotExists: true, tryParents: false)!.Cast<DictionaryEntry>().Select(e => ($"{e.Key}", $"{e.Value}"))
            .Where(e => e.Item1.Contains("{0}", StringComparison.Ordinal)).OrderByDescending(e => e.Item1.Length).Select(e => (Pattern(e.Item1), e.Item2)),
    ];

    /// <summary>What stands in a place: a figure; what a person wrote, which stays as it is; or, where the translation has {0:word}, a word of the studio's own that the table has.</summary>
    private readonly record struct Part(string Text) : IFormattable
    {
        public string ToString(string? format, IFormatProvider? provider) => format == "word" ? PageText.Find(Sentences, Text) ?? Text
            : double.TryParse(Text, NumberStyles.Float, CultureInfo.InvariantCulture, out _) ? PageText.Decimal(Text) : Text;
    }

    /// <summary>Places are numbered in the order in which the English sentence has them.</summary>
    private static Regex Pattern(string english) =>
        new($"^{Regex.Replace(Regex.Escape(english), @"\\\{\d\}", "(.+?)", RegexOptions.None)}$", RegexOptions.CultureInvariant | RegexOptions.Singleline | RegexOptions.NonBacktracking);
}
