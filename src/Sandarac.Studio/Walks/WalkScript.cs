using System.Text.Json.Nodes;
using Sandarac.Studio.Iiif;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Walking;

/// <summary>What the exported page shows, as data for its script. A page opened as a file may fetch nothing, so that its data must come as a script too.</summary>
internal static class WalkScript
{
    /// <summary>The exported page's data; lengths in mm on the plane, y down.</summary>
    public static JsonObject Data(WalkPlan plan, CanvasGrid canvas, WalkExportOptions options)
    {
        var data = Common(plan, Picture);
        foreach (var (name, value) in new JsonObject
        {
            ["attribution"] = options.Attribution, ["rights"] = options.Rights, ["width"] = canvas.Width, ["height"] = canvas.Height, ["mmPerPixel"] = canvas.MmPerPixel,
            ["tileSize"] = Imaging.Tiles.PyramidFile.TileSize, ["scales"] = canvas.Scales, ["folder"] = WalkAddresses.Pictures,
        }) data[name] = value?.DeepClone();
        return data;
    }

    /// <summary>What a page of the server shows: pictures are named by their layers.</summary>
    public static JsonObject Shown(WalkPlan plan) => Common(plan, p =>
    {
        var picture = Picture(p);
        (picture["layer"], picture["lamp"]) = (p.Layer.Id, p.Lamp is { } lamp ? new JsonObject { ["azimuth"] = lamp.AzimuthDeg, ["elevation"] = lamp.ElevationDeg } : null);
        return picture;
    });

    private static JsonObject Common(WalkPlan plan, Func<ExportedPicture, JsonObject> picture) => new()
    {
        ["title"] = plan.Walk?.Title ?? plan.Painting.Title, ["painting"] = plan.Painting.Title, ["language"] = plan.Walk?.Language ?? "en",
        ["pictures"] = new JsonArray([.. plan.Pictures.Select(picture)]), ["zones"] = new JsonArray([.. plan.Zones.Select(Zone)]), ["steps"] = new JsonArray([.. plan.Steps.Select(Step)]),
    };

    private static JsonObject Picture(ExportedPicture picture) => new() { ["key"] = picture.Key, ["label"] = picture.Label };

    private static JsonObject Zone(ZoneFacts zone) => new() { ["id"] = zone.Id, ["name"] = zone.Name, ["kind"] = zone.Kind, ["geometry"] = JsonNode.Parse(zone.Geometry) };

    private static JsonObject Step(PlannedStep step) => new()
    {
        ["title"] = step.Step.Title, ["caption"] = step.Step.Caption, ["x"] = step.Step.X, ["y"] = step.Step.Y, ["widthMm"] = step.Step.WidthMm,
        ["a"] = step.A.Key, ["b"] = step.B?.Key, ["over"] = step.Over?.Key, ["mode"] = Mode(step.Compare), ["amount"] = step.Step.Amount,
        ["zones"] = new JsonArray([.. step.Zones.Select(z => JsonValue.Create(z.Id))]), ["notes"] = new JsonArray([.. step.Notes.Select(n => JsonValue.Create(n))]),
    };

    private static string Mode(ViewCompare compare) => compare.ToString().ToLowerInvariant();
}
