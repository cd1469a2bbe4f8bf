namespace Sandarac.Analysis.Lights;

/// <summary>What is in the frame, from the words of a name.</summary>
internal static class SubjectGuess
{
    private static readonly Dictionary<string, PhotographSubject> Terms = new()
    {
        ["FLATFIELD"] = PhotographSubject.FlatField, ["DARKFRAME"] = PhotographSubject.DarkFrame, ["COLOURCHART"] = PhotographSubject.Chart,
        ["COLORCHART"] = PhotographSubject.Chart, ["DETAIL"] = PhotographSubject.Detail, ["MACRO"] = PhotographSubject.Detail, ["CLOSEUP"] = PhotographSubject.Detail,
    };

    /// <summary>Words that also stand in titles ("a dark wood", "flat country"): they count only between words that are understood.</summary>
    private static readonly Dictionary<string, PhotographSubject> Words = new()
    {
        ["FLAT"] = PhotographSubject.FlatField, ["FF"] = PhotographSubject.FlatField, ["DARK"] = PhotographSubject.DarkFrame,
        ["CHART"] = PhotographSubject.Chart, ["TARGET"] = PhotographSubject.Chart,
    };

    public static PhotographSubject From(IReadOnlyList<NameSource> sources, Light? light, out string? reason)
    {
        reason = null;
        foreach (var source in sources)
            for (var i = 0; i < source.Tokens.Count; i++)
            {
                var word = source.Tokens[i].Word;
                word = word.Length > 4 ? word.TrimEnd('S') : word;
                if (!Terms.TryGetValue(word, out var subject) && !(Words.TryGetValue(word, out subject) && Understood(source, i - 1) && Understood(source, i + 1))) continue;
                reason = $"\"{source.Tokens[i].Text}\" {source.Where}";
                return subject;
            }
        return light == Light.Section ? PhotographSubject.Sample : PhotographSubject.Painting;
    }

    /// <summary>The sample's name: "S1" as a word of its own, or what follows "sample".</summary>
    public static string? Sample(IReadOnlyList<NameSource> sources) =>
        sources.SelectMany(s => s.Tokens).FirstOrDefault(t => t is { Word: "S", Number: not null })?.Text
        ?? Following(sources, "SAMPLE", "SPL")?.Text;

    /// <summary>The number of "plate1" or "plate 1".</summary>
    public static int? Numbered(IReadOnlyList<NameSource> sources, params string[] words) =>
        sources.SelectMany(s => s.Tokens).FirstOrDefault(t => words.Contains(t.Word) && t.Number is not null)?.Number
        ?? Following(sources, words)?.Number;

    private static NameToken? Following(IReadOnlyList<NameSource> sources, params string[] words) => sources
        .SelectMany(s => s.Tokens.Zip(s.Tokens.Skip(1)))
        .Where(pair => words.Contains(pair.First.Word)).Select(pair => pair.First.Number is { } n ? new NameToken($"{n}", "", n) : pair.Second).FirstOrDefault();

    private static bool Understood(NameSource source, int i)
    {
        if (i < 0 || i >= source.Tokens.Count) return true;
        var token = source.Tokens[i];
        return token.Word.Length == 0 || LightGuesser.LightOf(token) is not null || LampGuess.Knows(token) || Words.ContainsKey(token.Word) || Terms.ContainsKey(token.Word);
    }
}
