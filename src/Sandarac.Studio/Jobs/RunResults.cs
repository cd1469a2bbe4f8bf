using Sandarac.Analysis.Declaring;
using Sandarac.Imaging.Geometry;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Jobs;

/// <summary>A pyramid that was made but is not in the store yet.</summary>
/// <param name="Name">The name under which the reading declares it; empty for a plane image.</param>
/// <param name="Object">The object's row; the file is in the store, marked as not yet spoken of.</param>
/// <param name="Pyramid">What it holds.</param>
/// <param name="Extent">Where it lies on the plane, mm; null for a photograph's own pixels.</param>
internal sealed record MadeRaster(string Name, StoredObject Object, PyramidFacts Pyramid, Box? Extent);

/// <summary>What a run has made so far. It becomes part of the record as a whole, or not at all.</summary>
internal sealed class RunResults(OpenStudio studio) : IDisposable
{
    private readonly List<RasterFile> _files = [];
    private List<MadeRaster> _made = [];

    /// <summary>Figures, candidates, warnings, or no answer.</summary>
    public Outcome Outcome { get; set; } = new();

    /// <summary>The alignment that an aligning run made.</summary>
    public Alignment? Alignment { get; set; }

    /// <summary>Files under way; each becomes a raster when the run ends well.</summary>
    public RasterFile Add(RasterFile file)
    {
        _files.Add(file);
        return file;
    }

    /// <summary>Completes the files and moves them into the store, where nobody speaks of them yet.</summary>
    public IReadOnlyList<MadeRaster> Finish(CancellationToken cancellation) => _made = Outcome.NoAnswer is null ? [.. _files.Select(f => f.Finish(studio.Objects, cancellation))] : [];

    /// <summary>Completes the files without keeping them; the hash of each by its name.</summary>
    public IReadOnlyDictionary<string, string> Hashes(CancellationToken cancellation) => Outcome.NoAnswer is null ? _files.ToDictionary(f => f.Name, f => f.Complete(cancellation)) : new Dictionary<string, string>();

    /// <summary>Writes everything in one transaction.</summary>
    public void Keep(StudioDb db, Run run)
    {
        var made = _made;
        run.Rasters.AddRange(made.Where(m => m.Name.Length > 0).Select(m => new RunRaster { RunId = run.Id, Name = m.Name, Pyramid = m.Pyramid, Extent = m.Extent }));
        if (Alignment is { } alignment) PutInForce(db, alignment, made.FirstOrDefault(m => m.Name.Length == 0));
        CandidateZones.Add(db, run, Outcome.Candidates, studio.Now);
        db.SaveWithObjects(made.Select(m => m.Object));
        foreach (var raster in made) studio.Objects.Confirm(raster.Object.Sha256);
    }

    /// <summary>Removes files that were not kept.</summary>
    public void Dispose()
    {
        foreach (var file in _files) file.Dispose();
    }

    private static void PutInForce(StudioDb db, Alignment alignment, MadeRaster? plane)
    {
        (alignment.PlaneImage, alignment.PlaneExtent) = (plane?.Pyramid, plane?.Extent);
        foreach (var former in db.Alignments.Where(a => a.PhotographId == alignment.PhotographId && a.SupersededBy == null)) former.SupersededBy = alignment.Id;
        db.Alignments.Add(alignment);
    }
}
