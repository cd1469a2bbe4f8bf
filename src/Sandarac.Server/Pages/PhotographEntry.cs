using Microsoft.EntityFrameworkCore;
using Sandarac.Studio;
using Sandarac.Studio.Record;

namespace Sandarac.Server.Pages;

/// <summary>A photograph with what is known of it.</summary>
/// <param name="Photograph">The photograph.</param>
/// <param name="Alignment">The alignment in force.</param>
/// <param name="Quality">The last answer of the quality reading.</param>
public sealed record PhotographEntry(Photograph Photograph, Alignment? Alignment, Run? Quality)
{
    private const string QualityReading = "photograph-quality";

    /// <summary>Whether a person should look at it.</summary>
    public bool NeedsALook => Photograph.Warnings.Count > 0 || Quality?.Warnings.Count > 0 || Alignment?.Verdict == Verdict.Uncertain;

    /// <summary>A painting's photographs in the order of their lights, then by name.</summary>
    internal static IReadOnlyList<PhotographEntry> Of(OpenStudio studio, Guid paintingId)
    {
        using var db = studio.CreateDb();
        var photographs = db.Photographs.AsNoTracking().Include(p => p.Alignments.OrderBy(a => a.Version)).Where(p => p.PaintingId == paintingId).ToList();
        var quality = db.Runs.AsNoTracking().Where(r => r.PaintingId == paintingId && r.ReadingId == QualityReading && r.State == RunState.Done)
            .OrderBy(r => r.QueuedAt).AsEnumerable().SelectMany(r => r.Inputs.Select(i => (i.PhotographId, Run: r))).ToLookup(r => r.PhotographId, r => r.Run);
        return [.. photographs.InOrder().Select(p => new PhotographEntry(p, p.Alignments.LastOrDefault(), quality[p.Id].LastOrDefault()))];
    }
}
