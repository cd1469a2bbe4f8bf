using Microsoft.EntityFrameworkCore;
using Sandarac.Imaging;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Documents.Building;

/// <summary>Everything that documents speak of, read from the record in one go.</summary>
internal sealed record DocumentContent(Painting Painting, IReadOnlyList<Photograph> Photographs, IReadOnlyList<Run> Runs, IReadOnlyList<Layer> Layers, IReadOnlyList<ZoneFacts> Zones, IReadOnlyList<Finding> Findings, IReadOnlyList<Sample> Samples,
    IReadOnlyList<ConditionState> States, IReadOnlyList<StateSeal> Seals, DateTime Now)
{
    public static DocumentContent Read(OpenStudio studio, Guid paintingId)
    {
        using var db = studio.CreateDb();
        var painting = db.RequirePainting(paintingId);
        var states = new ConditionStates(studio).Of(paintingId);
        var keys = states.Select(s => s.Id).ToList();
        return new DocumentContent(painting, db.PhotographsOf(paintingId), db.ReadingsOf(paintingId), new Layers(studio).Of(paintingId), new Zones(studio).Of(paintingId), [.. new Findings(studio).Of(paintingId).OrderBy(f => f.Content.Number)],
            new Samples(studio).Of(paintingId), [.. states.OrderBy(s => s.Content.On ?? DateOnly.FromDateTime(s.CreatedAt)).ThenBy(s => s.CreatedAt)], [.. db.StateSeals.AsNoTracking().Include(s => s.Signatures).Where(s => keys.Contains(s.StateId))], studio.Now);
    }

    /// <summary>The layer that shows a photograph best: on the plane when aligned, else in its own pixels.</summary>
    public Layer? LayerOf(Photograph photograph) => Layers.Where(l => !l.IsReading && l.PhotographId == photograph.Id).MaxBy(l => l.OnPlane);

    /// <summary>Width of a layer on the object, and what that rests on; null when nobody knows.</summary>
    public (double WidthMm, ScaleOrigin Origin)? WidthOf(Layer layer, Photograph? photograph) => layer.OnPlane ? (layer.Extent.Width, Painting.SizeOrigin)
        : photograph?.Facts.Scale is { } scale ? (layer.Extent.Width * scale.MmPerPixel, scale.Origin) : null;
}
