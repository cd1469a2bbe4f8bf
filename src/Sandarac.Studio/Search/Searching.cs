using Microsoft.EntityFrameworkCore;
using Sandarac.Imaging;
using Sandarac.Studio.Record;

namespace Sandarac.Studio;

/// <summary>What to look for; what is left out does not matter.</summary>
public sealed record SearchQuestion
{
    /// <summary>Words, each of which must begin a word of what is found.</summary>
    public string Words { get; init; } = "";

    /// <summary>A term's key, or words of terms: "blanching" is that of paint and that of varnish.</summary>
    public string Term { get; init; } = "";

    /// <summary>Code of a light that it rests on.</summary>
    public string Light { get; init; } = "";

    /// <summary>Words of a material.</summary>
    public string Material { get; init; } = "";

    /// <summary>Not before this day.</summary>
    public DateOnly? From { get; init; }

    /// <summary>Not after this day.</summary>
    public DateOnly? To { get; init; }

    /// <summary>Its zones cover at least this, mm2.</summary>
    public double? LeastMm2 { get; init; }

    /// <summary>Its zones cover at most this, mm2.</summary>
    public double? MostMm2 { get; init; }

    /// <summary>One kind of thing alone.</summary>
    public SearchSubject? Subject { get; init; }

    /// <summary>On this painting alone.</summary>
    public Guid? PaintingId { get; init; }

    /// <summary>How many to leave out at the beginning.</summary>
    public int Skip { get; init; }

    /// <summary>How many to show, 1 to 500.</summary>
    public int Take { get; init; } = 50;
}

/// <summary>One thing found.</summary>
/// <param name="Subject">What kind of thing.</param>
/// <param name="Id">Its key.</param>
/// <param name="PaintingId">The painting.</param>
/// <param name="Painting">The painting's title.</param>
/// <param name="Title">What is found, in short.</param>
/// <param name="Term">Key of its term; may be empty.</param>
/// <param name="On">The day to which it belongs.</param>
/// <param name="AreaMm2">Area of its zones together, mm2.</param>
public sealed record SearchHit(SearchSubject Subject, Guid Id, Guid PaintingId, string Painting, string Title, string Term, DateOnly? On, double? AreaMm2);

/// <summary>What a search found.</summary>
/// <param name="Total">How many things.</param>
/// <param name="Hits">Those asked for, the latest first.</param>
public sealed record SearchAnswer(int Total, IReadOnlyList<SearchHit> Hits);

/// <summary>Searches all paintings of a studio.</summary>
public sealed class Searching(OpenStudio studio)
{
    /// <summary>Finds what answers every part of a question.</summary>
    /// <exception cref="InputProblem">A question that asks for nothing sensible: sizes or days that exclude each other, a term that nobody knows ("search-...").</exception>
    public SearchAnswer Find(SearchQuestion question)
    {
        Check(question);
        using var db = studio.CreateDb();
        var found = Narrowed(Worded(db, SearchWords.Of(question.Words)), question);
        // The page is chosen by keys alone: sorting whole rows would take most of the time.
        var page = found.Select(e => new { e.Id, e.On }).OrderByDescending(e => e.On).ThenByDescending(e => e.Id).Skip(question.Skip).Take(question.Take).Select(e => e.Id).ToList();
        var rows = db.SearchEntries.Where(e => page.Contains(e.Id)).Join(db.Paintings, e => e.PaintingId, p => p.Id, (e, p) => new { Entry = e, p.Title }).AsNoTracking().ToList().OrderBy(r => page.IndexOf(r.Entry.Id));
        return new SearchAnswer(found.Count(), [.. rows.Select(r => new SearchHit(r.Entry.Subject, r.Entry.SubjectId, r.Entry.PaintingId, r.Title, r.Entry.Title, r.Entry.Term, r.Entry.On, r.Entry.AreaMm2))]);
    }

    /// <summary>Rows that hold words beginning with each of those given. A word is letters and digits only, so it can be set into the index's own language.</summary>
    private static IQueryable<SearchEntry> Worded(StudioDb db, IReadOnlyList<string> words)
    {
        if (words.Count == 0) return db.SearchEntries;
        var (fts, tsquery) = (string.Join(" AND ", words.Select(w => $"\"{w}\"*")), string.Join(" & ", words.Select(w => $"'{w}':*")));
        return db is SqliteStudioDb
            ? db.SearchEntries.FromSql($"""SELECT e.* FROM "SearchEntries" e WHERE e."Id" IN (SELECT rowid FROM "SearchWords" WHERE "SearchWords" MATCH {fts})""")
            : db.SearchEntries.FromSql($"""SELECT e.* FROM "SearchEntries" e WHERE e."WordVector" @@ to_tsquery('simple', {tsquery})""");
    }

    private IQueryable<SearchEntry> Narrowed(IQueryable<SearchEntry> rows, SearchQuestion q)
    {
        if (q.Term.Length > 0)
        {
            var keys = Terms(q.Term);
            rows = keys.Length == 1 ? rows.Where(e => e.Term == keys[0]) : rows.Where(e => keys.Contains(e.Term));
        }
        if (q.Light.Length > 0)
        {
            var code = $" {q.Light.Trim().ToUpperInvariant()} ";
            rows = rows.Where(e => e.Lights.Contains(code));
        }
        foreach (var word in SearchWords.Of(q.Material)) rows = rows.Where(e => e.Materials.Contains(word));
        if (q.From is { } from) rows = rows.Where(e => e.On >= from);
        if (q.To is { } to) rows = rows.Where(e => e.On <= to);
        if (q.LeastMm2 is { } least) rows = rows.Where(e => e.AreaMm2 >= least);
        if (q.MostMm2 is { } most) rows = rows.Where(e => e.AreaMm2 <= most);
        if (q.Subject is { } subject) rows = rows.Where(e => e.Subject == subject);
        if (q.PaintingId is { } painting) rows = rows.Where(e => e.PaintingId == painting);
        return rows;
    }

    private string[] Terms(string asked)
    {
        var terms = new StudioTerms(studio).All();
        if (terms.Any(t => t.Key == asked)) return [asked];
        var words = SearchWords.Of(asked);
        string[] keys = [.. terms.Where(t => SearchWords.Hold(t.Name, words)).Select(t => t.Key)];
        return words.Count > 0 && keys.Length > 0 ? keys : throw new InputProblem("search-term", asked, $"No term of this studio is called \"{asked}\".", "Search for it among the words, or look at the list of terms.");
    }

    private static void Check(SearchQuestion q)
    {
        if (q.Take is < 1 or > 500 || q.Skip < 0) throw new InputProblem("search-page", "take", "A page shows 1 to 500 things.", "Ask for fewer.");
        if (q.Words.Length > 1000 || q.Material.Length > 1000) throw new InputProblem("search-words", "words", "These are too many words.", "A few are enough.");
        if (q.From > q.To) throw new InputProblem("search-days", "from", "The first day lies after the last.", "Exchange them.");
        if (q is { LeastMm2: not null and not >= 0 } or { MostMm2: not null and not >= 0 } || q.LeastMm2 > q.MostMm2) throw new InputProblem("search-area", "area", "The sizes are no areas, or exclude each other.", "Give areas from 0 upwards, the smaller first.");
    }
}
