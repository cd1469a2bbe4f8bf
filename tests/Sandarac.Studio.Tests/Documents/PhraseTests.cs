using System.Globalization;
using System.Resources;
using System.Text.RegularExpressions;
using Sandarac.Studio.Documents.Model;
using Sandarac.Studio.Documents.Phrasing;

namespace Sandarac.Studio.Tests.Documents;

public sealed class PhraseTests
{
    private static readonly string[] Keys = [.. Enum.GetNames<Phrase>().Order(StringComparer.Ordinal)];

    [Fact]
    public void Each_language_has_every_phrase_and_no_other()
    {
        Assert.Equal(Keys, KeysOf(CultureInfo.InvariantCulture));
        Assert.Equal(Keys, KeysOf(CultureInfo.GetCultureInfo("es")));
    }

    [Fact]
    public void Each_language_fills_in_the_same_values() => Assert.All(Enum.GetValues<Phrase>(), p => Assert.Equal(Places(Phrases.English[p]), Places(Phrases.Spanish[p])));

    [Fact]
    public void No_phrase_stayed_English()
    {
        // Patterns, signs and words that both languages write alike.
        string[] alike = ["SizeOf", "BitsOf", "PhotographAlt", "ReadingRunTable", "WarningOf", "Probable", "ConfidenceProbable", "SubjectSample"];
        var same = Enum.GetValues<Phrase>().Where(p => Phrases.English[p] == Phrases.Spanish[p]).Select(p => p.ToString()).Except(alike);
        Assert.DoesNotContain(same, k => Phrases.English[Enum.Parse<Phrase>(k)].Any(char.IsLetter));
        // Words of English alone, which no Spanish sentence holds.
        var english = new Regex("\\b(the|of|and|is|are|not|was|with|which|by|for|from)\\b", RegexOptions.IgnoreCase);
        Assert.All(Enum.GetValues<Phrase>(), p => Assert.DoesNotMatch(english, Phrases.Spanish[p].Replace("'de'", "", StringComparison.Ordinal)));
    }

    [Fact]
    public void Every_phrase_is_used()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "Sandarac.slnx"))) folder = folder.Parent;
        var source = string.Concat(Directory.EnumerateFiles(Path.Combine(folder!.FullName, "src", "Sandarac.Studio"), "*.cs", SearchOption.AllDirectories).Where(f => !f.EndsWith("Phrase.cs", StringComparison.Ordinal) && !f.Contains("/obj/", StringComparison.Ordinal)).Select(File.ReadAllText));
        var used = Regex.Matches(source, @"\bPhrase\.(\w+)").Select(m => m.Groups[1].Value).ToHashSet();
        Assert.Empty(Keys.Except(used));
    }

    [Fact]
    public void Dates_and_figures_are_written_as_the_language_writes_them()
    {
        var day = new DateTime(2026, 11, 5, 8, 7, 0, DateTimeKind.Utc);
        Assert.Equal("5 November 2026, 08:07 UTC", Phrases.English.Time(day));
        Assert.Equal("5 de noviembre de 2026, 08:07 UTC", Phrases.Spanish.Time(day));
        Assert.Equal("12,35\u00A0\u00B1\u00A00,80\u00A0mm", Prose.Measured(12.34567, 0.8, Phrases.Spanish, "mm").Plain);
        Assert.Equal("12.35\u00A0\u00B1\u00A00.80\u00A0mm", Prose.Measured(12.34567, 0.8, Phrases.English, "mm").Plain);
    }

    [Fact]
    public void An_unknown_language_is_refused() => Assert.Equal("document-language", Assert.Throws<Imaging.InputProblem>(() => Phrases.In("xx")).Code);

    private static string[] KeysOf(CultureInfo culture)
    {
        var texts = new ResourceManager("Sandarac.Studio.Documents.Phrasing.Phrases", typeof(Phrases).Assembly).GetResourceSet(culture, createIfNotExists: true, tryParents: false)!;
        return [.. texts.Cast<System.Collections.DictionaryEntry>().Select(e => (string)e.Key).Order(StringComparer.Ordinal)];
    }

    private static IEnumerable<string> Places(string text) => Regex.Matches(text, "\\{[0-9]\\}").Select(m => m.Value).Order(StringComparer.Ordinal);
}
