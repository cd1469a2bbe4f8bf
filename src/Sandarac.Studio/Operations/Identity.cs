using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Sandarac.Imaging;
using Sandarac.Studio.Record;

namespace Sandarac.Studio;

/// <summary>What people state of a painting itself. Empty texts and years that are null say nothing.</summary>
/// <param name="Title">What it is called.</param>
/// <param name="Technique">"oil on oak".</param>
/// <param name="Support">"oak panel".</param>
/// <param name="AccessionNumber">The owner's number for it.</param>
/// <param name="DateFrom">Earliest year of making; 1 BC is -1.</param>
/// <param name="DateTo">Latest year of making.</param>
public sealed record PaintingIdentity(string Title, string Technique, string Support, string AccessionNumber, int? DateFrom, int? DateTo);

/// <summary>Changes what is stated of a painting itself. What it was before stays in the record.</summary>
public sealed class Identity(OpenStudio studio)
{
    private const int LongestName = 200, EarliestYear = -30_000;

    /// <summary>What is stated, and how often it was changed.</summary>
    /// <exception cref="InputProblem">"unknown-painting".</exception>
    public (PaintingIdentity Identity, int Revision) Of(Guid paintingId)
    {
        using var db = studio.CreateDb();
        return (Stated(db.RequirePainting(paintingId)), Revision(db, paintingId));
    }

    /// <summary>States it anew.</summary>
    /// <param name="paintingId">The painting.</param>
    /// <param name="revision">The revision that was read.</param>
    /// <param name="identity">What is stated now.</param>
    /// <param name="userName">Who states it.</param>
    /// <returns>The new revision.</returns>
    /// <exception cref="InputProblem">"unknown-painting"; someone changed it meanwhile ("painting-changed"); it has no title, or a text is too long or holds a sign that is none ("name"); a year is none, or the first comes after the last ("years").</exception>
    public int Change(Guid paintingId, int revision, PaintingIdentity identity, string userName)
    {
        using var db = studio.CreateDb();
        using var held = db.HoldPainting(paintingId);
        var painting = db.RequirePainting(paintingId);
        if (Revision(db, paintingId) != revision) throw new InputProblem("painting-changed", painting.Title, "What is stated of the painting was changed meanwhile.", "Look at it as it is now, then make your change again.");
        var sound = Checked(identity);
        if (revision == 0) Note(db, painting, 1, "created", userName);
        (painting.Title, painting.Technique, painting.Support, painting.AccessionNumber, painting.DateFrom, painting.DateTo) = (sound.Title, Optional(sound.Technique), Optional(sound.Support), Optional(sound.AccessionNumber), sound.DateFrom, sound.DateTo);
        var next = Math.Max(revision, 1) + 1;
        Note(db, painting, next, "changed", userName);
        db.SaveChanges();
        held.Commit();
        return next;
    }

    private PaintingIdentity Checked(PaintingIdentity identity)
    {
        var (from, to, last) = (identity.DateFrom, identity.DateTo, studio.Now.Year + 1);
        if (from is 0 || to is 0) throw new InputProblem("years", "years", "There is no year 0.", "1 BC is -1.");
        if (from < EarliestYear || to < EarliestYear || from > last || to > last) throw new InputProblem("years", "years", $"A year lies before {EarliestYear} or in the future.", "Give the years between which it was made.");
        if (from > to) throw new InputProblem("years", "years", $"It cannot have been begun in {from} and ended in {to}.", "Give the earlier year first.");
        if (string.IsNullOrWhiteSpace(identity.Title)) throw new InputProblem("name", "title", "The painting has no title.", "Give what it is called; \"untitled\" will do.");
        return identity with { Title = Line("title", identity.Title), Technique = Line("technique", identity.Technique), Support = Line("support", identity.Support), AccessionNumber = Line("accession number", identity.AccessionNumber) };
    }

    private static string Line(string field, string text) => text.Trim() is { Length: <= LongestName } line && !line.Any(char.IsControl) && ReadableText.IsReadable(line) ? line
        : throw new InputProblem("name", field, $"The {field} is longer than {LongestName} letters, or holds a sign that is no letter.", "Give it in one line.");

    private void Note(StudioDb db, Painting painting, int revision, string what, string userName) => db.WrittenChanges.Add(new WrittenChange { SubjectId = painting.Id, Revision = revision, What = what, Content = JsonSerializer.Serialize(Stated(painting), StudioJson.Options), At = studio.Now, By = userName });

    private static int Revision(StudioDb db, Guid paintingId) => db.WrittenChanges.AsNoTracking().Where(c => c.SubjectId == paintingId).Max(c => (int?)c.Revision) ?? 0;

    private static PaintingIdentity Stated(Painting p) => new(p.Title, p.Technique ?? "", p.Support ?? "", p.AccessionNumber ?? "", p.DateFrom, p.DateTo);

    private static string? Optional(string text) => text.Length == 0 ? null : text;
}
