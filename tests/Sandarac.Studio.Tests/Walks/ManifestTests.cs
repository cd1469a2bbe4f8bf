using System.Text.Json.Nodes;
using Sandarac.Studio.Record;
using Sandarac.Studio.Tests.Support;
using static Sandarac.Studio.Tests.Support.ExportedWalk;

namespace Sandarac.Studio.Tests.Walking;

/// <summary>An export's IIIF is judged by the published schema, its annotations by the W3C's assertions.</summary>
public sealed class ManifestTests : IDisposable
{
    private readonly ExportedWalk _walk = new();

    public void Dispose() => _walk.Dispose();

    /// <summary>The official schema of Presentation 3 judges its own fixtures as their names and labels say, so that its silence about ours means something.</summary>
    [Fact]
    public void Manifests_pass_the_official_schema_which_refuses_broken_ones()
    {
        var data = Data("iiif");
        var schemas = new Schemas([Path.Combine(data, "schema", "iiif_3_0.json")]);
        string[] refused = [.. Directory.EnumerateFiles(Path.Combine(data, "fixtures", "3"), "*.json").Order(StringComparer.Ordinal)
            .Where(f => schemas.Complaints("iiif_3_0.json", JsonNode.Parse(File.ReadAllText(f))!).Count > 0).Select(f => Path.GetFileNameWithoutExtension(f))];
        Assert.Equal(["broken_choice", "broken_collection", "broken_embedded_annos", "broken_service", "broken_simple_image", "collection_of_canvases", "non_cc_license", "old_format_label", "rights_lang_issues"], refused);
        var (all, visible, infrared, surface) = (_walk.AllZones(), _walk.Visible(), _walk.Infrared(), _walk.Home.AddSurface(0.1f, 0));
        var options = new WalkExportOptions { BaseAddress = "https://museum.example/ferry", Attribution = "The studio", Rights = "http://creativecommons.org/licenses/by/4.0/" };
        _walk.Export(Walk(Step(visible, zones: all), Step(visible, infrared, ViewCompare.Beside), Step(surface, lamp: 90), Step(visible, lamp: 270)), options, "walk");
        _walk.Export(null, options, "alone");
        foreach (var folder in (string[])["walk", "alone"]) Assert.Empty(schemas.Complaints("iiif_3_0.json", _walk.Read(folder, "manifest.json")));
        Assert.NotEmpty(schemas.Complaints("iiif_3_0.json", With(_walk.Read("walk", "manifest.json"), m => m["items"]![0]!.AsObject().Remove("height"))));
    }

    [Fact]
    public void A_manifest_has_one_canvas_with_every_light_as_a_choice_and_the_walk_as_range_and_captions()
    {
        var zone = new Zones(_walk.Studio).Create(_walk.Painting.Id, new ZoneContent("Old loss", "loss", "", Shapes[3]));
        new Zones(_walk.Studio).Create(_walk.Painting.Id, new ZoneContent("Not in the walk", "loss", "Private", Shapes[4]));
        var (visible, infrared) = (_walk.Visible(), _walk.Infrared());
        _walk.Export(Walk(Step(visible, zones: [zone.Id]), Step(visible, infrared, ViewCompare.Divide)), new WalkExportOptions { BaseAddress = "https://museum.example/ferry" });
        var manifest = _walk.Read("out", "manifest.json");
        var canvas = manifest["items"]!.AsArray().Single()!;
        Assert.Equal((Width, Height), ((int)canvas["width"]!, (int)canvas["height"]!));
        Assert.Equal((PlaneStudio.MmPerPixel, "mm"), ((double)canvas["service"]![0]!["physicalScale"]!, (string)canvas["service"]![0]!["physicalUnits"]!));
        var painted = canvas["items"]![0]!["items"]!.AsArray().Single()!;
        Assert.Equal(["VIS, visible", "IR, infrared"], painted["body"]!["items"]!.AsArray().Select(i => (string)i!["label"]!["en"]![0]!));
        Assert.Equal("Choice", (string)painted["body"]!["type"]!);
        Assert.Equal((string)canvas["id"]!, (string)painted["target"]!);
        Assert.True(manifest["requiredStatement"] is null && manifest["rights"] is null, "rights that nobody stated");
        Assert.Contains(manifest["metadata"]!.AsArray(), m => (string)m!["value"]!["none"]![0]! == "155 x 275 mm; measured on the object");
        Assert.DoesNotContain("Private", manifest.ToJsonString(), StringComparison.Ordinal);
        var (zones, captions) = (canvas["annotations"]![0]!["items"]!.AsArray(), canvas["annotations"]![1]!["items"]!.AsArray());
        Assert.Equal("xywh=40,40,200,120", (string)zones.Single()!["target"]!["selector"]!["value"]!);
        Assert.Equal("https://museum.example/ferry/pictures/vis/full/max/0/default.jpg", (string)captions[0]!["target"]!["scope"]!);
        Assert.Null(captions[1]!["target"]!["scope"]);
        // 100, 80 mm in the middle of 60 x 37.5 mm, a quarter of a mm a pixel.
        Assert.Equal("xywh=280,245,240,150", (string)captions[0]!["target"]!["selector"]!["value"]!);
        Assert.Equal(2, manifest["structures"]![0]!["items"]!.AsArray().Count);
    }

    /// <summary>Every annotation keeps every must of the W3C's Web Annotation Data Model; one that breaks a must is refused.</summary>
    [Fact]
    public void Annotations_keep_the_musts_of_the_web_annotation_data_model()
    {
        var reference = Path.Combine(AppContext.BaseDirectory, "References", "WebAnnotations");
        var schemas = new Schemas(Directory.EnumerateFiles(reference, "*.json", SearchOption.AllDirectories));
        var musts = JsonNode.Parse(File.ReadAllText(Path.Combine(reference, "annotations", "annotationMusts.test")))!["assertions"]!.AsArray().Select(a => Path.GetFileName((string)a!)).ToList();
        var visible = _walk.Visible();
        _walk.Export(Walk(Step(visible, zones: _walk.AllZones()), Step(visible, caption: "Una línea.\nOtra.")));
        var page = _walk.Read("out", "annotations.json");
        var annotations = page["items"]!.AsArray().Select(i => With(i!, a => a["@context"] = page["@context"]!.DeepClone())).ToList();
        Assert.Equal((Shapes.Length + 2, 54), (annotations.Count, musts.Count));
        foreach (var annotation in annotations)
            foreach (var must in musts) Assert.True(schemas.Complaints(must, annotation) is { Count: 0 }, $"{must}: {annotation}");
        Assert.NotEmpty(schemas.Complaints("3.1-targetKeyFound.json", With(annotations[0], a => a.Remove("target"))));
        Assert.NotEmpty(schemas.Complaints("3.1-annotationContextValidated.json", With(annotations[0], a => a["@context"] = "https://other.example/context.json")));
        Assert.NotEmpty(schemas.Complaints("3.3.1-annotationCreatedValidated.json", With(annotations[0], a => a["created"] = "yesterday")));
    }

    private static JsonObject With(JsonNode node, Action<JsonObject> change)
    {
        var copy = node.DeepClone().AsObject();
        change(copy);
        return copy;
    }

    private static string Data(string name)
    {
        var folders = new List<string?> { Environment.GetEnvironmentVariable("SANDARAC_DATA") };
        for (var at = AppContext.BaseDirectory; at is not null; at = Path.GetDirectoryName(at)) folders.Add(Path.Combine(at, "shared", "data"));
        var found = folders.OfType<string>().Select(f => Path.Combine(f, name)).FirstOrDefault(Directory.Exists);
        if (found is null) Assert.Skip($"Data not present: {name}. Set SANDARAC_DATA to its folder.");
        return found;
    }
}
