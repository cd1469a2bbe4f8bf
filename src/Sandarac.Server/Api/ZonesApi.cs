using System.Text.Json;
using Sandarac.Imaging;
using Sandarac.Studio;

namespace Sandarac.Server.Api;

/// <summary>A zone.</summary>
/// <param name="Id">Its key.</param>
/// <param name="Name">What a person calls it.</param>
/// <param name="Kind">What kind of phenomenon; may be empty.</param>
/// <param name="Note">What a person wrote.</param>
/// <param name="Geometry">GeoJSON geometry, mm on the plane, y down.</param>
/// <param name="Revision">Name it in If-Match to change or delete the zone.</param>
/// <param name="IsCandidate">Whether a reading proposes it and nobody accepted it yet.</param>
/// <param name="Confidence">How sure the reading is, 0 to 1.</param>
/// <param name="Reason">Why the reading proposes it.</param>
/// <param name="RunId">The run that proposed it.</param>
/// <param name="AreaMm2">Area; 0 for lines and points.</param>
/// <param name="LengthMm">Length of a line, perimeter of a polygon.</param>
internal sealed record ZoneShape(Guid Id, string Name, string Kind, string Note, JsonElement Geometry, int Revision, bool IsCandidate,
    double? Confidence, string? Reason, Guid? RunId, double AreaMm2, double LengthMm)
{
    public static ZoneShape Of(ZoneFacts zone) => new(zone.Id, zone.Name, zone.Kind, zone.Note, JsonElement.Parse(zone.Geometry), zone.Revision,
        zone.IsCandidate, zone.Confidence, zone.Reason, zone.RunId, zone.AreaMm2, zone.LengthMm);
}

/// <summary>What a person says of a zone; what is left out of a change stays as it was.</summary>
internal sealed record ZoneDraft(string? Name, string? Kind, string? Note, JsonElement? Geometry, bool? IsCandidate)
{
    public ZoneContent Onto(ZoneFacts? old) => new(Name ?? old?.Name ?? "", Kind ?? old?.Kind ?? "", Note ?? old?.Note ?? "",
        Geometry?.GetRawText() ?? old?.Geometry
            ?? throw new InputProblem("zone-geometry", "geometry", "The zone has no geometry.", "Give a GeoJSON geometry in mm."),
        IsCandidate ?? old?.IsCandidate ?? false);
}

/// <summary>Zones.</summary>
internal static class ZonesApi
{
    public static void MapZones(this RouteGroupBuilder api)
    {
        api.MapGet("/paintings/{id:guid}/zones", Of).WithSummary("A painting's zones, oldest first");
        api.MapPost("/paintings/{id:guid}/zones", Create).WithSummary("Adds a zone").Produces<ZoneShape>(StatusCodes.Status201Created);
        api.MapPut("/zones/{zoneId:guid}", Change).WithSummary("Changes a zone; If-Match names the revision it was made on").Produces<ZoneShape>();
        api.MapDelete("/zones/{zoneId:guid}", Delete).WithSummary("Deletes a zone; it can be restored").Produces(StatusCodes.Status204NoContent);
        api.MapPost("/zones/{zoneId:guid}/restore", Restore).WithSummary("Brings a deleted zone back").Produces<ZoneShape>();
    }

    private static IReadOnlyList<ZoneShape> Of(Guid id, OpenStudio studio)
    {
        studio.FindPainting(id);
        return [.. new Zones(studio).Of(id).Select(ZoneShape.Of)];
    }

    private static IResult Create(Guid id, ZoneDraft draft, OpenStudio studio, HttpResponse response)
    {
        var zone = new Zones(studio).Create(id, draft.Onto(null));
        return Answer(zone, response, StatusCodes.Status201Created);
    }

    private static IResult Change(Guid zoneId, ZoneDraft draft, OpenStudio studio, HttpRequest request, HttpResponse response)
    {
        var zones = new Zones(studio);
        return Answer(zones.Change(zoneId, IfMatch.Revision(request), draft.Onto(zones.Find(zoneId))), response, StatusCodes.Status200OK);
    }

    private static IResult Delete(Guid zoneId, OpenStudio studio, HttpRequest request)
    {
        new Zones(studio).Delete(zoneId, IfMatch.Revision(request));
        return Results.NoContent();
    }

    private static IResult Restore(Guid zoneId, OpenStudio studio, HttpResponse response) =>
        Answer(new Zones(studio).Restore(zoneId), response, StatusCodes.Status200OK);

    private static IResult Answer(ZoneFacts zone, HttpResponse response, int status)
    {
        IfMatch.Tell(response, zone.Revision);
        return Results.Json(ZoneShape.Of(zone), statusCode: status);
    }
}
