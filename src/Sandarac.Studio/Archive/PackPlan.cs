using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Sandarac.Imaging;
using Sandarac.Studio.Archive.Rows;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Archive;

/// <summary>A run and the folder that it has in a package.</summary>
internal sealed record PackedRun(Run Run, string Folder);

/// <summary>Which file of the store lies where in a package. The same record gives the same plan in any studio.</summary>
internal sealed class PackPlan
{
    private readonly Dictionary<string, string> _paths = new(StringComparer.Ordinal);

    /// <summary>Files of the store and their paths below data/, sorted by path.</summary>
    public IReadOnlyList<PackedObject> Objects { get; }

    /// <summary>The runs, oldest first.</summary>
    public IReadOnlyList<PackedRun> Runs { get; }

    /// <summary>Lays out a painting's files.</summary>
    /// <exception cref="InputProblem">"object-missing": the record speaks of a file that the store does not know.</exception>
    public PackPlan(StudioDb db, RecordRows rows)
    {
        var names = new FileNames();
        var photographs = rows.Of<Photograph>().OrderBy(p => p.FileName, StringComparer.Ordinal).ThenBy(p => p.Id).ToList();
        foreach (var p in photographs) Place(p.Sha256, () => names.Take("originals", p.FileName));
        foreach (var p in photographs) Place(p.Pyramid?.Sha256, () => names.Take("pictures/as-taken", p.FileName, ".tif"));
        var alignments = rows.Of<Alignment>().ToLookup(a => a.PhotographId);
        foreach (var p in photographs)
            foreach (var a in alignments[p.Id].OrderBy(a => a.Version)) Place(a.PlaneImage?.Sha256, () => names.Take("pictures/on-the-plane", p.FileName, string.Create(CultureInfo.InvariantCulture, $"-{a.Version}.tif")));
        Runs = [.. rows.Of<Run>().OrderBy(r => r.QueuedAt).ThenBy(r => r.Id).Select((r, i) => new PackedRun(r, string.Create(CultureInfo.InvariantCulture, $"readings/{i + 1:000}-{FileNames.Sound(r.ReadingId)}")))];
        var rasters = rows.Of<RunRaster>().ToLookup(r => r.RunId);
        foreach (var run in Runs)
            foreach (var raster in rasters[run.Run.Id].OrderBy(r => r.Name, StringComparer.Ordinal)) Place(raster.Pyramid.Sha256, () => names.Take(run.Folder, raster.Name, ".tif"));
        // Of tables that were added later.
        foreach (var sha256 in rows.Model.Tables.SelectMany(t => t.Objects.SelectMany(c => rows.Of(t).Select(c.Get))).Select(v => (v as PyramidFacts)?.Sha256 ?? v as string).Order(StringComparer.Ordinal)) Place(sha256, () => $"pictures/others/{sha256}");
        Objects = Known(db);
    }

    /// <summary>Where a file lies, below data/.</summary>
    public string PathOf(string sha256) => _paths[sha256];

    private void Place(string? sha256, Func<string> path)
    {
        if (sha256 is not null && !_paths.ContainsKey(sha256)) _paths.Add(sha256, path());
    }

    private List<PackedObject> Known(StudioDb db)
    {
        var stored = _paths.Keys.Chunk(2000).SelectMany(some => db.Objects.AsNoTracking().Where(o => some.Contains(o.Sha256)).ToList()).ToList();
        if (_paths.Keys.Except(stored.Select(o => o.Sha256)).FirstOrDefault() is { } missing)
            throw new InputProblem("object-missing", missing, $"The record speaks of the file {_paths[missing]}, which is not in the store.", "`sandarac check` says what is missing and how to get it back.");
        return [.. stored.Select(o => new PackedObject(o.Sha256, o.Bytes, o.MediaType, o.IsDerived, o.CreatedAt, _paths[o.Sha256])).OrderBy(o => o.Path, StringComparer.Ordinal)];
    }
}
