using Microsoft.EntityFrameworkCore;
using Sandarac.Imaging;
using Sandarac.Materials.Terms;
using Sandarac.Studio.Record;

namespace Sandarac.Studio;

/// <summary>The terms of a studio: those that come with the program and its own.</summary>
public sealed class StudioTerms(OpenStudio studio)
{
    private const int LongestName = 80;

    /// <summary>All, by category and group in the order of the table, a group's own terms after those that come with the program.</summary>
    public IReadOnlyList<Term> All()
    {
        using var db = studio.CreateDb();
        return All(db);
    }

    /// <summary>Those whose name or definition holds every word, names first; all when there are no words.</summary>
    public IReadOnlyList<Term> Find(string words)
    {
        var wanted = SearchWords.Of(words);
        return [.. All().Where(t => SearchWords.Hold($"{t.Group} {t.Name} {t.Definition}", wanted)).OrderBy(t => SearchWords.Hold(t.Name, wanted) ? 0 : 1)];
    }

    /// <summary>Adds a term of the studio's own to one of the groups.</summary>
    /// <exception cref="InputProblem">No such group ("term-group"); no name, or one with a stroke in it ("term-name"); no definition ("term-definition"); it is there ("term-there").</exception>
    public Term Add(string category, string group, string name, string definition, string userName)
    {
        using var db = studio.CreateDb();
        if (!Term.All.Any(t => t.Category == category && t.Group == group)) throw new InputProblem("term-group", group, "There is no such group of terms.", "Choose one of the list.");
        var term = new Term(category, group, (name ?? "").Trim(), (definition ?? "").Trim(), "", ThesaurusMatch.None, $"the studio's own, {userName}");
        if (term.Name.Length is 0 or > LongestName || term.Name.Contains('/', StringComparison.Ordinal) || term.Name.Any(char.IsControl))
            throw new InputProblem("term-name", "name", $"A term has 1 to {LongestName} letters and no stroke.", "Give it a short name.");
        if (term.Definition.Length is 0 or > 2000) throw new InputProblem("term-definition", "definition", "A term needs a definition, or others will use it otherwise.", "Say in a sentence what is meant by it.");
        if (All(db).Any(t => string.Equals(t.Key, term.Key, StringComparison.OrdinalIgnoreCase))) throw new InputProblem("term-there", term.Key, $"There is a term \"{term.Name}\" in this group already.", "Use it, or choose another name.");
        db.HouseTerms.Add(new HouseTerm { Key = term.Key, Category = category, Group = group, Name = term.Name, Definition = term.Definition, By = userName, At = studio.Now });
        db.SaveChanges();
        return term;
    }

    /// <summary>What a key of a term is called; the key's own words when nobody knows it any more.</summary>
    public static string NameOf(string key) => key[(key.IndexOf('/', StringComparison.Ordinal) + 1)..];

    /// <summary>Whether a finding may be called so.</summary>
    internal static bool Exists(StudioDb db, string key) => Term.All.Any(t => t.Key == key) || db.HouseTerms.Any(t => t.Key == key);

    private static IReadOnlyList<Term> All(StudioDb db)
    {
        var groups = Term.All.Select(t => (t.Category, t.Group)).Distinct().ToList();
        var own = db.HouseTerms.AsNoTracking().AsEnumerable().OrderBy(t => t.Name, StringComparer.Ordinal)
            .Select(t => new Term(t.Category, t.Group, t.Name, t.Definition, "", ThesaurusMatch.None, $"the studio's own, {t.By}"));
        return [.. Term.All.Concat(own).OrderBy(t => groups.IndexOf((t.Category, t.Group)))];
    }
}
