using Microsoft.EntityFrameworkCore;
using Sandarac.Imaging;

namespace Sandarac.Studio.Record;

/// <summary>Finding rows by key, or saying that there are none.</summary>
internal static class Lookups
{
    public static Painting RequirePainting(this StudioDb db, Guid id) => db.Paintings.Find(id)
        ?? throw new InputProblem("unknown-painting", id.ToString(), "There is no such painting in this studio.", "The list of paintings shows what there is.");

    public static Photograph RequirePhotograph(this StudioDb db, Guid id) => db.Photographs.Find(id)
        ?? throw new InputProblem("unknown-photograph", id.ToString(), "There is no such photograph in this studio.", "The painting's page lists its photographs.");

    /// <summary>A painting's photograph, untracked.</summary>
    /// <exception cref="InputProblem">The painting has none of that key ("unknown-photograph").</exception>
    public static Photograph RequirePhotograph(this StudioDb db, Guid paintingId, Guid id) => db.Photographs.AsNoTracking().FirstOrDefault(p => p.Id == id && p.PaintingId == paintingId)
        ?? throw new InputProblem("unknown-photograph", id.ToString(), "There is no such photograph of this painting.", "The painting's page lists its photographs.");

    public static Run RequireRun(this StudioDb db, Guid id) => db.Runs.Find(id)
        ?? throw new InputProblem("unknown-run", id.ToString(), "There is no such run in this studio.", "The painting's readings page lists its runs.");

    /// <summary>A painting's photographs with their alignments, untracked, in the order of their names.</summary>
    public static IReadOnlyList<Photograph> PhotographsOf(this StudioDb db, Guid paintingId) =>
        [.. db.Photographs.AsNoTracking().Include(p => p.Alignments).Where(p => p.PaintingId == paintingId).AsEnumerable().OrderBy(p => p.FileName, StringComparer.Ordinal)];

    /// <summary>A painting's runs of readings with their rasters, untracked, oldest first.</summary>
    public static IReadOnlyList<Run> ReadingsOf(this StudioDb db, Guid paintingId) =>
        [.. db.Runs.AsNoTracking().Include(r => r.Rasters).Where(r => r.PaintingId == paintingId && r.Kind == RunKind.Reading).OrderBy(r => r.QueuedAt).ThenBy(r => r.Id)];
}
