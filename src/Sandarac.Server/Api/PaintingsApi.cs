using Microsoft.EntityFrameworkCore;
using Sandarac.Imaging;
using Sandarac.Studio;

namespace Sandarac.Server.Api;

/// <summary>A painting in a list.</summary>
internal sealed record PaintingInList(Guid Id, string Title, string? Technique, double WidthMm, double HeightMm, int Photographs, DateTime CreatedAt);

/// <summary>A painting with everything that can be shown of it.</summary>
internal sealed record PaintingShape(Guid Id, string Title, string? Technique, double WidthMm, double HeightMm, ScaleOrigin SizeOrigin,
    IReadOnlyList<LayerShape> Layers);

/// <summary>Paintings.</summary>
internal static class PaintingsApi
{
    public static void MapPaintings(this RouteGroupBuilder api)
    {
        api.MapGet("/paintings", List).WithSummary("All paintings, newest first");
        api.MapGet("/paintings/{id:guid}", Get).WithSummary("One painting and its layers: aligned photographs, photographs in their own pixels, readings");
    }

    public static IReadOnlyList<PaintingInList> List(OpenStudio studio)
    {
        using var db = studio.CreateDb();
        return [.. db.Paintings.AsNoTracking().OrderByDescending(p => p.CreatedAt)
            .Select(p => new PaintingInList(p.Id, p.Title, p.Technique, p.WidthMm, p.HeightMm, p.Photographs.Count, p.CreatedAt))];
    }

    private static PaintingShape Get(Guid id, OpenStudio studio)
    {
        var painting = studio.FindPainting(id);
        return new PaintingShape(id, painting.Title, painting.Technique, painting.WidthMm, painting.HeightMm, painting.SizeOrigin,
            [.. new Layers(studio).Of(id).Select(LayerShape.Of)]);
    }
}
