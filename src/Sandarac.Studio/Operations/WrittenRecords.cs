using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Sandarac.Imaging;
using Sandarac.Studio.Record;

namespace Sandarac.Studio;

/// <summary>What something written was at one revision.</summary>
/// <param name="Revision">The revision.</param>
/// <param name="What">"created", "changed", "deleted", "restored", "moved with the painting's size".</param>
/// <param name="Content">What was written then.</param>
/// <param name="At">When, UTC.</param>
/// <param name="By">Who wrote it.</param>
public sealed record WrittenRevision<TContent>(int Revision, string What, TContent Content, DateTime At, string By);

/// <summary>Writes, corrects, takes out and restores what people write into the record; nothing that was written is lost.</summary>
/// <typeparam name="TRow">Samples, layers, findings ...</typeparam>
/// <typeparam name="TContent">What is written of one.</typeparam>
public abstract class WrittenRecords<TRow, TContent> where TRow : Written<TContent>, new() where TContent : class, new()
{
    /// <summary>More than ten pages: who writes more has pasted something else.</summary>
    private const int LongestText = 20_000;

    private readonly string _what;

    private protected WrittenRecords(OpenStudio studio, string what) => (Studio, _what) = (studio, what);

    private protected OpenStudio Studio { get; }

    /// <summary>A painting's, oldest first, without those taken out.</summary>
    /// <exception cref="InputProblem">"unknown-painting".</exception>
    public IReadOnlyList<TRow> Of(Guid paintingId) => All(paintingId, removed: false);

    /// <summary>A painting's that were taken out, oldest first.</summary>
    /// <exception cref="InputProblem">"unknown-painting".</exception>
    public IReadOnlyList<TRow> Removed(Guid paintingId) => All(paintingId, removed: true);

    /// <summary>One, taken out or not.</summary>
    /// <exception cref="InputProblem">There is none ("unknown-sample", "unknown-layer" ...).</exception>
    public TRow Find(Guid id)
    {
        using var db = Studio.CreateDb();
        return Require(db, id);
    }

    /// <summary>Writes a new one.</summary>
    /// <exception cref="InputProblem">"unknown-painting"; what is wrong with the content.</exception>
    public TRow Create(Guid paintingId, TContent content, string userName)
    {
        using var db = Studio.CreateDb();
        db.RequirePainting(paintingId);
        var row = Make(paintingId, Studio.Now);
        db.Add(row);
        return Save(db, row, content, "created", userName);
    }

    /// <summary>Corrects one.</summary>
    /// <param name="id">Which.</param>
    /// <param name="revision">The revision that the change was made on.</param>
    /// <param name="content">What is written now.</param>
    /// <param name="userName">Who writes.</param>
    /// <exception cref="InputProblem">There is none; someone changed it meanwhile ("sample-changed" ...); it was taken out; what is wrong with the content.</exception>
    public TRow Change(Guid id, int revision, TContent content, string userName)
    {
        using var db = Studio.CreateDb();
        var row = RequireAt(db, id, revision);
        if (row.DeletedAt is not null) throw new InputProblem($"{_what}-deleted", id.ToString(), $"This {_what} was taken out.", "Restore it first.");
        return Save(db, row, content, "changed", userName);
    }

    /// <summary>Takes one out; it can be restored. Doing so twice changes nothing.</summary>
    /// <exception cref="InputProblem">There is none; someone changed it meanwhile.</exception>
    public TRow Delete(Guid id, int revision, string userName)
    {
        using var db = Studio.CreateDb();
        var row = RequireAt(db, id, revision);
        if (row.DeletedAt is not null) return row;
        row.DeletedAt = Studio.Now;
        return Save(db, row, null, "deleted", userName);
    }

    /// <summary>Brings one back, or back to what it was at an earlier revision: a change like any other.</summary>
    /// <param name="id">Which.</param>
    /// <param name="toRevision">The revision to go back to; null for what it was when it was taken out.</param>
    /// <param name="userName">Who restores.</param>
    /// <exception cref="InputProblem">There is none; no such revision ("unknown-revision"); what it was then does not fit any more, its number being another's for instance.</exception>
    public TRow Restore(Guid id, int? toRevision, string userName)
    {
        using var db = Studio.CreateDb();
        var row = Require(db, id);
        var content = toRevision is not { } revision ? row.Content : History(id).FirstOrDefault(r => r.Revision == revision)?.Content
            ?? throw new InputProblem("unknown-revision", id.ToString(), $"There is no revision {revision}.", $"Its revisions are 1 to {row.Revision}.");
        row.DeletedAt = null;
        return Save(db, row, content, "restored", userName);
    }

    /// <summary>What one was at each revision, oldest first.</summary>
    /// <exception cref="InputProblem">There is none.</exception>
    public IReadOnlyList<WrittenRevision<TContent>> History(Guid id)
    {
        using var db = Studio.CreateDb();
        Require(db, id);
        return [.. db.WrittenChanges.AsNoTracking().Where(c => c.SubjectId == id).OrderBy(c => c.Revision).AsEnumerable()
            .Select(c => new WrittenRevision<TContent>(c.Revision, c.What, JsonSerializer.Deserialize<TContent>(c.Content, StudioJson.Options)!, c.At, c.By))];
    }

    /// <summary>A new row without content.</summary>
    private protected abstract TRow Make(Guid paintingId, DateTime now);

    /// <summary>The content in order, or the problem with it.</summary>
    private protected abstract TContent Checked(StudioDb db, TRow row, TContent content);

    /// <summary>What takes long and needs nothing of the record but the row as it stands: done before the painting is held, so that others need not wait to write.</summary>
    private protected virtual void Prepare(TRow row, TContent content)
    {
    }

    /// <summary>What else is to be stored with it, in the same transaction.</summary>
    private protected virtual void Alongside(StudioDb db, TRow row)
    {
    }

    /// <summary>Writes a new one into a unit of work that the caller holds and saves.</summary>
    internal TRow Add(StudioDb db, Guid paintingId, TContent content, string userName)
    {
        var row = Make(paintingId, Studio.Now);
        db.Add(row);
        row.Content = Checked(db, row, Whole(content));
        Note(db, row, "created", Studio.Now, userName);
        Alongside(db, row);
        return row;
    }

    /// <summary>Notes one more revision; the caller saves.</summary>
    internal static void Note(StudioDb db, TRow row, string what, DateTime now, string userName)
    {
        (row.Revision, row.UpdatedAt) = (row.Revision + 1, now);
        db.WrittenChanges.Add(new WrittenChange { SubjectId = row.Id, Revision = row.Revision, What = what, Content = JsonSerializer.Serialize(row.Content, StudioJson.Options), At = now, By = userName });
    }

    private protected static InputProblem Wrong(string code, string subject, string message, string remedy) => new(code, subject, message, remedy);

    /// <summary>A text that can be kept and printed.</summary>
    private protected static string Readable(string subject, string? text)
    {
        if (text is null) throw Wrong("value-missing", subject, $"{subject} is null.", "Leave it out, or give a value.");
        if (text.Length > LongestText) throw Wrong("text-too-long", subject, $"{subject} is longer than {LongestText} letters.", "Keep what matters; attach the rest as a file beside the photographs.");
        return ReadableText.IsReadable(text) ? text : throw Wrong("text-unreadable", subject, $"{subject} holds a sign that is no letter.", "Type it anew.");
    }

    /// <summary>A name without blanks about it.</summary>
    private protected static string Name(string subject, string? name) => name?.Trim() is { Length: > 0 and <= 200 } trimmed ? trimmed
        : throw Wrong("name", subject, string.IsNullOrWhiteSpace(name) ? "It has no name." : "The name is longer than 200 letters.", "Give it a short name.");

    private IReadOnlyList<TRow> All(Guid paintingId, bool removed)
    {
        using var db = Studio.CreateDb();
        db.RequirePainting(paintingId);
        return [.. db.Set<TRow>().AsNoTracking().Where(r => r.PaintingId == paintingId && r.DeletedAt != null == removed).OrderBy(r => r.CreatedAt).ThenBy(r => r.Id)];
    }

    /// <summary>The content, when nothing of it is missing and its texts can be read.</summary>
    private static TContent Whole(TContent content)
    {
        foreach (var property in typeof(TContent).GetProperties().Where(p => !p.PropertyType.IsValueType))
        {
            var value = property.GetValue(content) ?? throw Wrong("value-missing", property.Name, $"{property.Name} is null.", "Leave it out, or give a value.");
            if (value is string text) Readable(property.Name, text);
        }
        return content;
    }

    private TRow Require(StudioDb db, Guid id) => db.Set<TRow>().Find(id) ?? throw Wrong($"unknown-{_what}", id.ToString(), $"There is no such {_what}.", "Reload the page; it may belong to another studio.");

    private TRow RequireAt(StudioDb db, Guid id, int revision) => Require(db, id) is var row && row.Revision == revision ? row : throw Changed(row);

    private InputProblem Changed(TRow row, Exception? cause = null) => new($"{_what}-changed", row.Id.ToString(), $"This {_what} was changed meanwhile.", "Look at it as it is now, then make your change again.", cause);

    /// <summary>Checks and saves in one, so that nothing that others write comes between: of two samples that are given one number at the same instant the second is refused.</summary>
    private TRow Save(StudioDb db, TRow row, TContent? content, string what, string userName)
    {
        if (content is not null) Prepare(row, Whole(content));
        using var held = db.HoldPainting(row.PaintingId);
        if (content is not null) row.Content = Checked(db, row, content);
        Note(db, row, what, Studio.Now, userName);
        Alongside(db, row);
        try
        {
            db.SaveChanges();
            held.Commit();
        }
        catch (DbUpdateException e) when (MovedOn(row))
        {
            throw Changed(row, e);
        }
        return row;
    }

    private bool MovedOn(TRow row)
    {
        using var db = Studio.CreateDb();
        return db.WrittenChanges.Any(c => c.SubjectId == row.Id && c.Revision >= row.Revision);
    }
}
