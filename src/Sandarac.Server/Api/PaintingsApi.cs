using Microsoft.EntityFrameworkCore;
using Sandarac.Imaging;
using Sandarac.Studio;
using Sandarac.Studio.Jobs;

namespace Sandarac.Server.Api;

/// <summary>A painting in a list.</summary>
internal sealed record PaintingInList(Guid Id, string Title, string? Technique, double WidthMm, double HeightMm, int Photographs, DateTime CreatedAt);

/// <summary>A painting with everything that can be shown of it.</summary>
internal sealed record PaintingShape(Guid Id, string Title, string? Technique, double WidthMm, double HeightMm, ScaleOrigin SizeOrigin,
    IReadOnlyList<LayerShape> Layers);

/// <summary>Two places in mm on the plane, y down, and how far apart they are on the object, mm.</summary>
internal sealed record DistanceAsk(IReadOnlyList<double>? From, IReadOnlyList<double>? To, double? Mm);

/// <summary>Runs that were asked for.</summary>
internal sealed record RunsAsked(IReadOnlyList<Guid> RunIds);

/// <summary>Paintings.</summary>
internal static class PaintingsApi
{
    public static void MapPaintings(this RouteGroupBuilder api)
    {
        api.MapGet("/paintings", List).WithSummary("All paintings, newest first");
        api.MapGet("/paintings/{id:guid}", Get).WithSummary("One painting and its layers: aligned photographs, photographs in their own pixels, readings");
        api.MapGet("/paintings/{id:guid}/identity", Stated).WithSummary("What is stated of the painting itself: title, technique, support, number, years").Produces<PaintingIdentity>();
        api.MapPut("/paintings/{id:guid}/identity", (Guid id, PaintingIdentity identity, OpenStudio studio, HttpRequest request, HttpResponse response) =>
        {
            new Identity(studio).Change(id, IfMatch.Revision(request), identity, Environment.UserName);
            return Stated(id, studio, response);
        }).WithSummary("States it anew; If-Match names the revision that was read").Produces<PaintingIdentity>();
        api.MapPost("/paintings/{id:guid}/distance", Resize).WithSummary("Corrects the painting's size by a distance measured on the object, and aligns every photograph again").Produces<RunsAsked>(StatusCodes.Status202Accepted);
    }

    private static IResult Stated(Guid id, OpenStudio studio, HttpResponse response)
    {
        var (identity, revision) = new Identity(studio).Of(id);
        IfMatch.Tell(response, revision);
        return Results.Ok(identity);
    }

    private static IResult Resize(Guid id, DistanceAsk ask, OpenStudio studio, JobHost jobs)
    {
        var runs = new Sizing(studio).QueueByDistance(id, Points.Read("from", ask.From), Points.Read("to", ask.To), ask.Mm ?? double.NaN, Environment.UserName);
        foreach (var run in runs) jobs.Enqueue(run.Id);
        return Results.Accepted($"/api/paintings/{id}", new RunsAsked([.. runs.Select(r => r.Id)]));
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
