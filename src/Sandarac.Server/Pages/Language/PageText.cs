using System.Globalization;
using System.Resources;
using Microsoft.AspNetCore.Components;
using Sandarac.Studio.Documents.Phrasing;

namespace Sandarac.Server.Pages.Language;

/// <summary>What pages say, in the language of the request. The English sentence is the key of its translations, so that a page reads as what it says and
/// English needs no table; Interface.LANGUAGE.resx holds the others.</summary>
/// <remarks>A key may end with a stroke and a note that tells two uses of one English word apart, "From|day"; nobody is shown it. An entry serves with and
/// without a capital at its beginning: names of resources may not differ by case alone.</remarks>
public static class PageText
{
    private static readonly ResourceManager Sentences = new("Sandarac.Server.Pages.Language.Interface", typeof(PageText).Assembly);

    /// <summary>ISO 639-1 code of the language that the request is answered in.</summary>
    public static string PageLanguage => CultureInfo.CurrentUICulture.TwoLetterISOLanguageName is var code && Languages.All.Any(l => l.Code == code) ? code : "en";

    /// <summary>What an element is marked with that holds English of the record; null on a page in English.</summary>
    public static string? RecordLanguage => PageLanguage == "en" ? null : "en";

    /// <summary>What documents say too: lights, subjects, sizes.</summary>
    public static Phrases Phrasing => Phrases.In(PageLanguage);

    /// <summary>A sentence.</summary>
    public static string Say(string english) => PageLanguage == "en" ? Shown(english) : Find(Sentences, english) ?? Shown(english);

    /// <summary>A sentence with places {0}, {1} ... for what differs.</summary>
    public static string Say(string english, params ReadOnlySpan<object?> values) => string.Format(CultureInfo.InvariantCulture, Say(english), values);

    /// <summary>"1 photograph", "18 photographs": the number takes the place {0} of either.</summary>
    public static string Counted(int n, string one, string many) => Say(n == 1 ? one : many, n);

    /// <summary>A sentence whose places are marked up: a link in the middle of it, a command.</summary>
    public static RenderFragment Said(string english, params RenderFragment[] parts)
    {
        var sentence = Say(english);
        return builder =>
        {
            for (var i = 0; i < parts.Length; i++)
            {
                var place = sentence.IndexOf($"{{{i}}}", StringComparison.Ordinal);
                builder.AddContent(0, sentence[..place]);
                builder.AddContent(1, parts[i]);
                sentence = sentence[(place + 3)..];
            }
            builder.AddContent(2, sentence);
        };
    }

    /// <summary>A figure that was written with a decimal point, as the language writes it. Never for what a field or an address holds.</summary>
    public static string Decimal(string figure) => PageLanguage == "es" ? figure.Replace('.', ',') : figure;

    /// <summary>What a table of the request's language has for an English text; null for nothing.</summary>
    internal static string? Find(ResourceManager table, string english)
    {
        if (english.Length == 0 || PageLanguage == "en" || table.GetResourceSet(CultureInfo.GetCultureInfo(PageLanguage), createIfNotExists: true, tryParents: false) is not { } set) return null;
        return set.GetString(english) ?? (set.GetString(OtherCase(english)) is { } found ? char.IsUpper(english[0]) ? Capital(found) : OtherCase(found) : null);
    }

    /// <summary>With a capital at its beginning.</summary>
    public static string Capital(string text) => text.Length == 0 ? text : $"{char.ToUpperInvariant(text[0])}{text[1..]}";

    private static string OtherCase(string text) => $"{(char.IsUpper(text[0]) ? char.ToLowerInvariant(text[0]) : char.ToUpperInvariant(text[0]))}{text[1..]}";

    private static string Shown(string english) => english.IndexOf('|', StringComparison.Ordinal) is var note and >= 0 ? english[..note] : english;
}
