using System.Text.Json.Nodes;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Tests.Support;

/// <summary>A painting on the plane whose walks are exported and read back.</summary>
public sealed class ExportedWalk : IDisposable
{
    public const int Width = 1100, Height = 620;

    /// <summary>Zones of every kind of geometry: points, a line, an upright rectangle, a polygon with a hole, several polygons, several points.</summary>
    public static readonly string[] Shapes =
    [
        """{"type":"Point","coordinates":[30,40]}""", """{"type":"Point","coordinates":[0,0]}""", """{"type":"LineString","coordinates":[[10,10],[60,20],[90,70]]}""",
        """{"type":"Polygon","coordinates":[[[10,10],[60,10],[60,40],[10,40],[10,10]]]}""", """{"type":"Polygon","coordinates":[[[10,10],[60,20],[40,60],[10,10]],[[30,22],[40,24],[36,34],[30,22]]]}""",
        """{"type":"MultiPolygon","coordinates":[[[[100,10],[110,10],[105,20],[100,10]]],[[[130,10],[140,10],[135,20],[130,10]]]]}""", """{"type":"MultiPoint","coordinates":[[5,5],[9,9]]}""",
    ];

    private readonly string _viewer;

    public ExportedWalk()
    {
        _viewer = Directory.CreateDirectory(Path.Combine(Home.Root, "viewer")).FullName;
        foreach (var name in (string[])["walk.js", "walk.css", "LICENCES.txt", "serif.woff2"]) File.WriteAllText(Path.Combine(_viewer, name), "");
    }

    public PlaneStudio Home { get; } = new(Width, Height);

    public Painting Painting => Home.Painting;

    public OpenStudio Studio => Home.Studio;

    public void Dispose() => Home.Dispose();

    public static WalkStep Step(string a, string? b = null, ViewCompare compare = ViewCompare.Alone, string caption = "Look here.", IReadOnlyList<Guid>? zones = null, double? lamp = null) =>
        new(Guid.CreateVersion7(), "A view", caption, 100, 80, 60, a, b, compare, 0.5, lamp, lamp is null ? null : 30, zones ?? []);

    public static WalkContent Walk(params WalkStep[] steps) => new() { Title = "Under the varnish", Steps = steps };

    /// <summary>A slope that a JPEG keeps: black at one side of the painting, white at the other.</summary>
    public static double Slope(double mm, double length) => 65535 * mm / length;

    /// <summary>A photograph in visible light, black at the left, white at the right; its layer's id.</summary>
    public string Visible() => Home.AddWhole("VIS", 3, (x, _, _) => Slope(x, Painting.WidthMm));

    /// <summary>One in infrared that looks the same.</summary>
    public string Infrared() => Home.AddWhole("IR", 1, (x, _, _) => Slope(x, Painting.WidthMm));

    /// <summary>A zone of every shape; their ids.</summary>
    public IReadOnlyList<Guid> AllZones() => [.. Shapes.Select(g => new Zones(Studio).Create(Painting.Id, new ZoneContent("Blanched", "abrasion", "Greyish <b>under</b> the lamp", g)).Id)];

    public WalkExported Export(WalkContent? walk, WalkExportOptions? options = null, string folder = "out", IProgress<double>? progress = null, CancellationToken? stop = null) =>
        new WalkExport(Studio, _viewer).Write(Painting.Id, walk, PathOf(folder), options ?? new WalkExportOptions(), progress, stop ?? TestContext.Current.CancellationToken);

    public string PathOf(params string[] parts) => Path.Combine([Home.Root, .. parts]);

    public JsonObject Read(params string[] parts) => JsonNode.Parse(File.ReadAllText(PathOf(parts)))!.AsObject();

    /// <summary>What the exported page's data script assigns.</summary>
    public JsonObject Data()
    {
        var script = File.ReadAllText(PathOf("out", "data.js"));
        return JsonNode.Parse(script["window.sandaracWalk = ".Length..script.LastIndexOf(';')])!.AsObject();
    }
}
