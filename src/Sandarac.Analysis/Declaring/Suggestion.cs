namespace Sandarac.Analysis.Declaring;

/// <summary>Finds what a person probably meant by a misspelt name.</summary>
public static class Suggestion
{
    /// <summary>The known name nearest to <paramref name="given"/>, or null when none is near: at most a third of its letters (and at least two) differ.</summary>
    public static string? Nearest(string given, IEnumerable<string> known) => known
        .Select(name => (Name: name, Distance: Distance(given.ToUpperInvariant(), name.ToUpperInvariant())))
        .Where(c => c.Distance <= Math.Max(2, c.Name.Length / 3))
        .OrderBy(c => c.Distance).ThenBy(c => c.Name, StringComparer.Ordinal)
        .Select(c => c.Name).FirstOrDefault();

    /// <summary>"Did you mean x?" when something is near, else the list of what there is.</summary>
    internal static string Remedy(string given, IReadOnlyCollection<string> known, string kind) =>
        Nearest(given, known) is { } near ? $"Did you mean \"{near}\"?"
        : known.Count == 0 ? $"It has no {kind}s." : $"Its {kind}s are: {string.Join(", ", known)}.";

    /// <summary>Edit distance with insertion, deletion, substitution and exchange of neighbours, each counted 1
    /// (Damerau, Communications of the ACM 7 (1964) 171; the restricted form).</summary>
    internal static int Distance(string a, string b)
    {
        var d = new int[a.Length + 1, b.Length + 1];
        for (var i = 0; i <= a.Length; i++) d[i, 0] = i;
        for (var j = 0; j <= b.Length; j++) d[0, j] = j;
        for (var i = 1; i <= a.Length; i++)
            for (var j = 1; j <= b.Length; j++)
            {
                var cost = a[i - 1] == b[j - 1] ? 0 : 1;
                d[i, j] = Math.Min(Math.Min(d[i - 1, j], d[i, j - 1]) + 1, d[i - 1, j - 1] + cost);
                if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) d[i, j] = Math.Min(d[i, j], d[i - 2, j - 2] + 1);
            }
        return d[a.Length, b.Length];
    }
}
