using System.Text.RegularExpressions;
using Sandarac.Server.Pages.Language;

namespace Sandarac.Server.Tests.Language;

/// <summary>What pages say against the Spanish table: nothing is missing in it, nothing is left over.</summary>
public sealed partial class PageTextTests
{
    private static readonly List<(string File, string Text)> Pages = [.. Sources.In(Sources.Pages, ".razor", ".cs").Where(p => !p.File.EndsWith("PageText.cs", StringComparison.Ordinal))];

    private static readonly List<string> Keys = [.. Pages.SelectMany(p => Said().Matches(p.Text).Select(m => m.Groups["key"].Value)
        .Concat(Counted().Matches(p.Text).SelectMany(m => new[] { m.Groups["one"].Value, m.Groups["many"].Value }))).Select(k => k.Replace("\\\"", "\"", StringComparison.Ordinal)).Distinct()];

    [Fact]
    public void Every_sentence_has_a_Spanish_one()
    {
        using var _ = new InSpanish();
        Assert.True(Keys.Count > 300, $"Only {Keys.Count} sentences were found.");
        var table = Sources.Table("Interface");
        Assert.Empty(Keys.Where(k => !table.ContainsKey(k) && !table.ContainsKey(OtherCase(k))).ToList());
    }

    [Fact]
    public void Every_Spanish_sentence_is_said()
    {
        var said = Keys.Concat(Keys.Select(OtherCase)).ToHashSet();
        Assert.Empty(Sources.Table("Interface").Keys.Where(k => !said.Contains(k)).ToList());
    }

    [Theory]
    [InlineData("Interface")]
    [InlineData("Record")]
    public void Translations_have_the_places_of_their_sentence(string table) =>
        Assert.Empty(Sources.Table(table).Where(e => !Places(e.Key).Order().SequenceEqual(Places(e.Value).Order())).Select(e => e.Key));

    [Fact]
    public void Marked_up_places_keep_their_order() =>
        Assert.Empty(Pages.SelectMany(p => Marked().Matches(p.Text)).Select(m => m.Groups["key"].Value).Where(k => !Places(Sources.Table("Interface")[k]).SequenceEqual(Places(k))).ToList());

    [Fact]
    public void Sentences_are_written_out_where_they_are_said()
    {
        foreach (var (file, text) in Pages)
        {
            Assert.True(Call().Count(text) == Said().Count(text), $"{file}: a sentence that is not written out, which no table can be held against.");
            Assert.True(CountedCall().Count(text) == Counted().Count(text), $"{file}: a count that is not written out.");
        }
    }

    [Fact]
    public void No_page_holds_words_of_one_language()
    {
        foreach (var (file, text) in Pages.Where(p => p.File.EndsWith(".razor", StringComparison.Ordinal)))
        {
            var markup = Comments().Replace(text.Split("@code {")[0], "");
            Assert.All(Bare().Matches(markup).Concat(BareAttribute().Matches(markup)), m => Assert.Fail($"{file}: {m.Value}"));
        }
    }

    [Fact]
    public void An_entry_serves_with_and_without_a_capital()
    {
        using var _ = new InSpanish();
        Assert.Equal(("Buscar", "buscar"), (PageText.Say("Search"), PageText.Say("search")));
        Assert.Equal(("0,43 mm", "1,5"), (PageText.Decimal("0.43 mm"), PageText.Decimal("1.5")));
        Assert.Equal(("1 fotografía", "2 fotografías"), (PageText.Counted(1, "{0} photograph", "{0} photographs"), PageText.Counted(2, "{0} photograph", "{0} photographs")));
    }

    [Fact]
    public void In_English_the_sentence_is_said_without_its_note() => Assert.Equal(("From", "1 photograph", "0.43 mm"), (PageText.Say("From|day"), PageText.Counted(1, "{0} photograph", "{0} photographs"), PageText.Decimal("0.43 mm")));

    private static IEnumerable<string> Places(string text) => Place().Matches(text.Replace(":word}", "}", StringComparison.Ordinal)).Select(m => m.Value);

    private static string OtherCase(string key) => $"{(char.IsUpper(key[0]) ? char.ToLowerInvariant(key[0]) : char.ToUpperInvariant(key[0]))}{key[1..]}";

    [GeneratedRegex("""\b(?:Say|Said)\((?="(?<key>(?:[^"\\]|\\.)*)")""")]
    private static partial Regex Said();

    [GeneratedRegex("""\bSaid\("(?<key>(?:[^"\\]|\\.)*)"(?=,)""")]
    private static partial Regex Marked();

    [GeneratedRegex("""\b(?:Say|Said)\(""")]
    private static partial Regex Call();

    [GeneratedRegex("""\bCounted\((?:[^"();]|\((?:[^"();]|\([^"();]*\))*\))+, "(?<one>[^"\\]*)", "(?<many>[^"\\]*)"\)""")]
    private static partial Regex Counted();

    [GeneratedRegex("""\bCounted\(""")]
    private static partial Regex CountedCall();

    [GeneratedRegex("""\{\d\}""")]
    private static partial Regex Place();

    [GeneratedRegex("""@\*.*?\*@""", RegexOptions.Singleline)]
    private static partial Regex Comments();

    /// <summary>Letters between two tags of one line, but names and commands.</summary>
    [GeneratedRegex("""(?<=[a-z"/]>)(?!Sandarac<|SHA-256<|npm |viewer/|sandarac )[^<>@{}=;()]*\p{L}{2,}[^<>@{}=;()]*(?=</)""")]
    private static partial Regex Bare();

    [GeneratedRegex("""\b(?:Label|Help|None|What|aria-label|placeholder|alt|title)="[^"@]*\p{L}{2,}[^"]*"(?=[\s>/])""")]
    private static partial Regex BareAttribute();
}
