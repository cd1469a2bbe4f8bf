using Microsoft.EntityFrameworkCore;
using Sandarac.Studio.Record;
using Sandarac.Studio.Storage;

namespace Sandarac.Studio;

/// <summary>One thing that is not as it should be.</summary>
/// <param name="Kind">"missing", "damaged", "orphaned".</param>
/// <param name="Sha256">The object.</param>
/// <param name="Subject">What it belongs to, in words: "VIS_01.tif, original".</param>
/// <param name="Remedy">What to do about it.</param>
public sealed record CheckFinding(string Kind, string Sha256, string Subject, string Remedy);

/// <summary>What a check found.</summary>
/// <param name="Objects">Objects re-read.</param>
/// <param name="Bytes">Bytes re-read.</param>
/// <param name="Findings">What is not as it should be.</param>
/// <param name="Leftovers">Unfinished files of processes that ended early; opening the studio removes them.</param>
public sealed record CheckReport(int Objects, long Bytes, IReadOnlyList<CheckFinding> Findings, int Leftovers)
{
    /// <summary>Whether everything is there and whole.</summary>
    public bool IsClean => Findings.Count == 0;
}

/// <summary>Re-reads everything in a studio.</summary>
public sealed class Checking(OpenStudio studio)
{
    /// <summary>Compares every object with its hash, and the record with the store both ways. Changes nothing.</summary>
    public CheckReport Check(IProgress<double>? progress = null, CancellationToken cancellation = default)
    {
        using var db = studio.CreateDb();
        var users = Users(db);
        var rows = db.Objects.AsNoTracking().ToDictionary(o => o.Sha256);
        var files = studio.Objects.All().ToHashSet();
        var damaged = Damaged(files, rows, progress, cancellation);
        string Subject(string sha) => users[sha].FirstOrDefault() ?? "an object that nothing refers to";
        List<CheckFinding> findings =
        [
            .. users.Select(u => u.Key).Union(rows.Keys).Where(sha => !files.Contains(sha)).Order(StringComparer.Ordinal)
                .Select(sha => new CheckFinding("missing", sha, Subject(sha), Restore(rows.GetValueOrDefault(sha)))),
            .. damaged.Order(StringComparer.Ordinal).Select(sha => new CheckFinding("damaged", sha, Subject(sha), Restore(rows.GetValueOrDefault(sha)))),
            .. files.Where(f => !rows.ContainsKey(f)).Order(StringComparer.Ordinal)
                .Select(f => new CheckFinding("orphaned", f, "a file in the store that the record does not know", "Move it out of the objects folder after looking at it.")),
            .. rows.Keys.Where(sha => files.Contains(sha) && !users.Contains(sha)).Order(StringComparer.Ordinal)
                .Select(sha => new CheckFinding("orphaned", sha, "an object in the record that nothing refers to", "It does no harm; keep it until someone has looked at it.")),
        ];
        return new CheckReport(files.Count, files.Sum(f => Length(f)), findings, Recovery.Leftovers(studio.Objects).Count(l => l.IsDead));
    }

    /// <summary>What refers to each object, in words.</summary>
    private static ILookup<string, string> Users(StudioDb db)
    {
        List<(string Sha256, string Words)> users = [];
        foreach (var photograph in db.Photographs.AsNoTracking().Include(p => p.Alignments).OrderBy(p => p.Id))
        {
            users.Add((photograph.Sha256, $"{photograph.FileName}, original"));
            if (photograph.Pyramid is { } pyramid) users.Add((pyramid.Sha256, $"{photograph.FileName}, pyramid"));
            users.AddRange(photograph.Alignments.Where(a => a.PlaneImage is not null).Select(a => (a.PlaneImage!.Sha256, $"{photograph.FileName}, plane image {a.Version}")));
        }
        foreach (var run in db.Runs.AsNoTracking().Include(r => r.Rasters).OrderBy(r => r.Id))
            users.AddRange(run.Rasters.Select(r => (r.Pyramid.Sha256, $"{run.ReadingId}, {r.Name} of run {run.Id}")));
        users.AddRange(db.Spectra.AsNoTracking().OrderBy(s => s.Id).AsEnumerable().Select(s => (s.Content.Sha256, $"{s.Content.FileName}, spectrum")));
        users.AddRange(db.ReferenceChronologies.AsNoTracking().OrderBy(c => c.Id).AsEnumerable().Select(c => (c.Sha256, $"{c.FileName}, reference chronology")));
        return users.ToLookup(u => u.Sha256, u => u.Words);
    }

    private List<string> Damaged(IReadOnlyCollection<string> files, Dictionary<string, StoredObject> rows, IProgress<double>? progress, CancellationToken cancellation)
    {
        var (total, done) = (files.Sum(Length), 0L);
        // Two readers keep a disk busy while one of them computes; more would make a spinning one seek.
        return files.AsParallel().WithDegreeOfParallelism(2).WithCancellation(cancellation).Where(sha =>
        {
            var length = Length(sha);
            var whole = (!rows.TryGetValue(sha, out var row) || row.Bytes == length) && ObjectStore.Hash(studio.Objects.FileOf(sha)) == sha;
            progress?.Report((double)Interlocked.Add(ref done, length) / Math.Max(total, 1));
            return !whole;
        }).ToList();
    }

    private long Length(string sha) => new FileInfo(studio.Objects.FileOf(sha)).Length;

    private static string Restore(StoredObject? row) => row is { IsDerived: false }
        ? "Restore it from a copy of the studio, or examine the folder with the original file again."
        : "It can be made again: examine the folder again, or repeat the run.";
}
