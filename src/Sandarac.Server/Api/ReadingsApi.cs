using Sandarac.Analysis.Declaring;

namespace Sandarac.Server.Api;

/// <summary>A reading in a list.</summary>
internal sealed record ReadingInList(string Id, int Version, string Title, string Summary, bool OnPlane, bool RunsOnExamine);

/// <summary>Readings, as they declare themselves.</summary>
internal static class ReadingsApi
{
    public static void MapReadings(this RouteGroupBuilder api)
    {
        api.MapGet("/readings", List).WithSummary("All readings");
        api.MapGet("/readings/{id}", (string id) => DeclarationView.Of(ReadingCatalogue.Find(id).Declaration))
            .WithSummary("One reading: inputs, parameters, rasters, figures");
    }

    private static IReadOnlyList<ReadingInList> List() => [.. ReadingCatalogue.All.Select(r => r.Declaration)
        .Select(d => new ReadingInList(d.Id, d.Version, d.Title, d.Summary, d.OnPlane, d.RunsOnExamine))];
}
