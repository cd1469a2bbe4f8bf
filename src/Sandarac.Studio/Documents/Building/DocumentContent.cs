using Sandarac.Imaging;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Documents.Building;

/// <summary>Everything that documents speak of, read from the record in one go.</summary>
internal sealed record DocumentContent(Painting Painting, IReadOnlyList<Photograph> Photographs, IReadOnlyList<Run> Runs, IReadOnlyList<Layer> Layers, IReadOnlyList<ZoneFacts> Zones, DateTime Now)
{
    public static DocumentContent Read(OpenStudio studio, Guid paintingId)
    {
        using var db = studio.CreateDb();
        var painting = db.RequirePainting(paintingId);
        return new DocumentContent(painting, db.PhotographsOf(paintingId), db.ReadingsOf(paintingId), new Layers(studio).Of(paintingId), new Zones(studio).Of(paintingId), studio.Now);
    }

    /// <summary>The layer that shows a photograph best: on the plane when aligned, else in its own pixels.</summary>
    public Layer? LayerOf(Photograph photograph) => Layers.Where(l => !l.IsReading && l.PhotographId == photograph.Id).MaxBy(l => l.OnPlane);

    /// <summary>Width of a layer on the object, and what that rests on; null when nobody knows.</summary>
    public (double WidthMm, ScaleOrigin Origin)? WidthOf(Layer layer, Photograph? photograph) => layer.OnPlane ? (layer.Extent.Width, Painting.SizeOrigin)
        : photograph?.Facts.Scale is { } scale ? (layer.Extent.Width * scale.MmPerPixel, scale.Origin) : null;
}
