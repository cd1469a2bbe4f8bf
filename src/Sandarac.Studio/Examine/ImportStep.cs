using Microsoft.EntityFrameworkCore;
using Sandarac.Analysis.Lights;
using Sandarac.Imaging;
using Sandarac.Studio.Record;
using Sandarac.Studio.Storage;

namespace Sandarac.Studio.Examine;

/// <summary>Brings a folder's photographs into the studio. Files are copied, hashed and made into pyramids several at once; rows are written one by one
/// in the order of names. A photograph's row is the moment from which it is reported stored.</summary>
internal sealed class ImportStep(ExamineSession session)
{
    private readonly OpenStudio _studio = session.Studio;

    /// <summary>Imports what is not there yet.</summary>
    /// <exception cref="InputProblem">Nothing could be imported and nothing was there before; a faulty list.</exception>
    public void Run()
    {
        session.Report("finding", session.Folder, 0);
        var (files, refused) = FolderWalk.Walk(session.Folder, _studio.Folder);
        var stated = ReadList(files);
        var frames = session.Options.Lens.Select(Path.GetFullPath).ToHashSet();
        files = [.. files.Where(f => !frames.Contains(f.Path))];
        foreach (var refusal in refused) session.Refuse(refusal);
        FindPainting();
        var (i, known) = (0, KnownSizes());
        InOrder.Run(files, Math.Max(1, session.Options.Threads), file => Fetch(file, known), (file, fetched) =>
        {
            Store(file, fetched, stated.GetValueOrDefault(file.Name));
            session.Report("importing", file.Name, 0.5 * ++i / files.Count);
        }, session.Cancellation);
        if (session.PaintingId is null) throw NothingImported();
        ApplySaid();
    }

    private InputProblem NothingImported()
    {
        var reasons = session.Refusals.Take(20).Select(r => $"{r.File}: {r.Message}");
        return new InputProblem("no-photographs", session.Folder, session.Refusals.Count == 0 ? "The folder holds no photographs."
            : $"None of the folder's {session.Refusals.Count} files could be imported. {string.Join(" ", reasons)}", "Give the folder that holds the photographs.");
    }

    private IReadOnlyDictionary<string, LightGuess> ReadList(IReadOnlyList<FoundFile> files)
    {
        var path = Path.Combine(session.Folder, PhotographList.FileName);
        if (!File.Exists(path)) return new Dictionary<string, LightGuess>();
        if (new FileInfo(path).LinkTarget is not null)
            throw new InputProblem("symbolic-link", PhotographList.FileName, $"{PhotographList.FileName} is a link to another place; links are not followed.", "Copy the file itself into the folder.");
        var stated = PhotographList.Parse(File.ReadAllText(path));
        foreach (var name in stated.Keys.Except(files.Select(f => f.Name), StringComparer.OrdinalIgnoreCase).Order(StringComparer.Ordinal))
            session.Warnings.Add(new Warning("list-missing-file", $"{PhotographList.FileName} names {name}, which is not in the folder."));
        return stated;
    }

    private void FindPainting()
    {
        using var db = _studio.CreateDb();
        session.PaintingId = db.Paintings.Where(p => p.SourceFolder == session.Folder).OrderBy(p => p.CreatedAt).Select(p => (Guid?)p.Id).FirstOrDefault();
    }

    /// <summary>Lengths of the photographs that are there: only a file of such a length need be hashed before it is copied.</summary>
    private HashSet<long> KnownSizes()
    {
        using var db = _studio.CreateDb();
        return [.. db.Photographs.Where(p => p.PaintingId == session.PaintingId).Join(db.Objects, p => p.Sha256, o => o.Sha256, (_, o) => o.Bytes)];
    }

    private FetchedFile Fetch(FoundFile file, HashSet<long> known)
    {
        try
        {
            if (known.Contains(new FileInfo(file.Path).Length) && Photograph(ObjectStore.Hash(file.Path)) is { } there) return FetchedFile.Known(there.Sha256);
            return FetchedFile.From(file, _studio.Objects, session.Options.Limits, session.Cancellation);
        }
        catch (InputProblem e)
        {
            return FetchedFile.Refused(new Refusal(file.Name, e.Code, e.Message, e.Remedy));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return FetchedFile.Refused(new Refusal(file.Name, "file-unreadable", $"It cannot be read or copied: {e.Message}", "Check its permissions and the room on the studio's disk."));
        }
    }

    private Photograph? Photograph(string sha256)
    {
        using var db = _studio.CreateDb();
        return db.Photographs.AsNoTracking().FirstOrDefault(p => p.PaintingId == session.PaintingId && p.Sha256 == sha256);
    }

    private void Store(FoundFile file, FetchedFile fetched, LightGuess? stated)
    {
        if (fetched.Refusal is { } refusal) session.Refuse(refusal);
        else if (Photograph(fetched.Sha256) is { } there) Recognise(file, there, stated);
        else Add(file, fetched, stated);
    }

    private void Recognise(FoundFile file, Photograph there, LightGuess? stated)
    {
        session.AlreadyThere.Add(there.FileName == file.Name ? file.Name : $"{file.Name} (the same file as {there.FileName})");
        if (stated is null || there.FileName != file.Name) return;
        using var db = _studio.CreateDb();
        Describe(db.RequirePhotograph(there.Id), stated);
        db.SaveChanges();
    }

    private void Add(FoundFile file, FetchedFile fetched, LightGuess? stated)
    {
        using var db = _studio.CreateDb();
        var painting = session.PaintingId is { } id ? db.RequirePainting(id) : db.Paintings.Add(NewPainting()).Entity;
        var photograph = fetched.ToPhotograph(painting.Id, file.Name, _studio.Now);
        Describe(photograph, stated ?? LightGuess.From(file.Name, photograph.Facts.Description));
        db.Photographs.Add(photograph);
        fetched.Keep(db, _studio.Objects);
        session.PaintingId = painting.Id;
        session.Report("imported", file.Name, 0);
    }

    private Painting NewPainting() => new()
    {
        Title = session.Options.Title ?? Path.GetFileName(session.Folder.TrimEnd(Path.DirectorySeparatorChar)),
        SourceFolder = session.Folder,
        SizeOrigin = ScaleOrigin.Assumed,
        CreatedAt = _studio.Now,
    };

    /// <summary>What the person says now counts, also for a painting that was there before.</summary>
    private void ApplySaid()
    {
        using var db = _studio.CreateDb();
        var painting = db.RequirePainting(session.PaintingId!.Value);
        (painting.Title, painting.Technique) = (session.Options.Title ?? painting.Title, session.Options.Technique ?? painting.Technique);
        db.SaveChanges();
    }

    private static void Describe(Photograph photograph, LightGuess guess)
    {
        (photograph.Light, photograph.LightSide, photograph.Subject) = (guess.Light?.Code, guess.Side, guess.Subject);
        (photograph.AzimuthDeg, photograph.ElevationDeg) = (guess.AzimuthDegrees, guess.ElevationDegrees);
        (photograph.LightConfidence, photograph.LightReason) = (guess.Confidence, guess.Reason);
        (photograph.Sample, photograph.SectionLight, photograph.Plate) = (guess.Sample, guess.SectionLight?.Code, guess.Plate);
    }
}
