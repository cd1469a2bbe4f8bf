using System.Globalization;
using System.Text.Json.Nodes;
using Sandarac.Studio.Documents;
using Sandarac.Studio.Record;
using Sandarac.Studio.Walking;

namespace Sandarac.Studio.Iiif;

/// <summary>A painting, or a walk of it, as a manifest of the IIIF Presentation API 3.0 (https://iiif.io/api/presentation/3.0/): one canvas, every light a choice on it.</summary>
internal sealed class WalkManifest(WalkPlan plan, CanvasGrid canvas, WalkExportOptions options)
{
    private readonly WalkAddresses _addresses = new(options.BaseAddress);

    private WalkAnnotations Annotations => new(plan, canvas, _addresses);

    /// <summary>The whole manifest.</summary>
    public JsonObject Make()
    {
        var manifest = new JsonObject
        {
            ["@context"] = "http://iiif.io/api/presentation/3/context.json", ["id"] = _addresses.Manifest, ["type"] = "Manifest",
            ["label"] = plan.Walk is { } walk ? WalkAnnotations.Text(walk.Language, walk.Title) : WalkAnnotations.Text("none", plan.Painting.Title),
            ["metadata"] = new JsonArray([.. Metadata().Select(m => Pair(m.Label, m.Value))]),
            ["thumbnail"] = new JsonArray(Thumbnail(plan.Pictures[0])),
            ["items"] = new JsonArray(Canvas()),
        };
        if (options.Attribution.Length > 0) manifest["requiredStatement"] = Pair("Attribution", options.Attribution);
        if (options.Rights.Length > 0) manifest["rights"] = options.Rights;
        if (plan.Steps.Count > 0) manifest["structures"] = new JsonArray(Range());
        return manifest;
    }

    private IEnumerable<(string Label, string Value)> Metadata()
    {
        var painting = plan.Painting;
        yield return ("Title", painting.Title);
        if (painting.AccessionNumber is { Length: > 0 } number) yield return ("Accession number", number);
        if (painting.Technique is { Length: > 0 } technique) yield return ("Technique", technique);
        if (painting.Support is { Length: > 0 } support) yield return ("Support", support);
        if (Years(painting) is { } years) yield return ("Date", years);
        yield return ("Size (height x width)", $"{Words.Size(painting)}{Words.Spread(painting)}; {Words.Origin(painting.SizeOrigin)}");
        yield return ("Pictures", FormattableString.Invariant($"Registered on one plane, {canvas.MmPerPixel:0.####} mm a pixel; 8 bits, for looking, not for measuring values."));
        yield return ("Made with", Words.Software());
    }

    private static string? Years(Painting painting) => (painting.DateFrom, painting.DateTo) switch
    {
        (null, null) => null,
        ({ } from, { } to) when from == to => from.ToString(CultureInfo.InvariantCulture),
        ({ } from, { } to) => FormattableString.Invariant($"{from} to {to}"),
        ({ } from, null) => FormattableString.Invariant($"not before {from}"),
        (null, { } to) => FormattableString.Invariant($"not after {to}"),
    };

    private JsonObject Canvas()
    {
        var page = new JsonObject { ["id"] = _addresses.Annotation("painted"), ["type"] = "AnnotationPage", ["items"] = new JsonArray(Painted()) };
        var item = new JsonObject
        {
            ["id"] = _addresses.Canvas, ["type"] = "Canvas", ["label"] = WalkAnnotations.Text("none", plan.Painting.Title), ["width"] = canvas.Width, ["height"] = canvas.Height,
            ["service"] = new JsonArray(PhysicalDimensions()), ["items"] = new JsonArray(page),
        };
        var annotations = Annotations.Pages().ToArray();
        if (annotations.Length > 0) item["annotations"] = new JsonArray(annotations);
        return item;
    }

    private JsonObject Painted() => new()
    {
        ["id"] = _addresses.Annotation("painted", "lights"), ["type"] = "Annotation", ["motivation"] = "painting",
        ["body"] = plan.Pictures.Count == 1 ? Image(plan.Pictures[0]) : new JsonObject { ["type"] = "Choice", ["items"] = new JsonArray([.. plan.Pictures.Select(Image)]) },
        ["target"] = _addresses.Canvas,
    };

    private JsonObject Image(ExportedPicture picture)
    {
        var (width, height) = TileFolder.Largest(canvas);
        return new JsonObject
        {
            ["id"] = _addresses.Whole(picture), ["type"] = "Image", ["format"] = "image/jpeg", ["label"] = WalkAnnotations.Text("en", picture.Label), ["width"] = width, ["height"] = height,
            ["service"] = new JsonArray(Service(picture)),
        };
    }

    private JsonObject Service(ExportedPicture picture) => new() { ["id"] = _addresses.Picture(picture), ["type"] = "ImageService3", ["profile"] = "level0" };

    private JsonObject Thumbnail(ExportedPicture picture)
    {
        var size = TileFolder.Smallest(canvas);
        return new JsonObject
        {
            ["id"] = $"{_addresses.Picture(picture)}/{TileFolder.Whole(size)}", ["type"] = "Image", ["format"] = "image/jpeg", ["width"] = size.Width, ["height"] = size.Height, ["service"] = new JsonArray(Service(picture)),
        };
    }

    /// <summary>How large a pixel is: https://iiif.io/api/annex/services/#physical-dimensions. Presentation 3 wants an id and a type, which the annex leaves open.</summary>
    private JsonObject PhysicalDimensions() => new()
    {
        ["@context"] = "http://iiif.io/api/annex/services/physdim/1/context.json", ["@id"] = $"{_addresses.Base}/physical-dimensions", ["@type"] = "PhysicalDimensions",
        ["profile"] = "http://iiif.io/api/annex/services/physdim", ["physicalScale"] = canvas.MmPerPixel, ["physicalUnits"] = "mm",
    };

    private JsonObject Range() => new()
    {
        ["id"] = _addresses.Range(), ["type"] = "Range", ["label"] = WalkAnnotations.Text(plan.Walk!.Language, plan.Walk.Title),
        ["items"] = new JsonArray([.. plan.Steps.Select((s, i) => new JsonObject
        {
            ["id"] = _addresses.Range(s.Step.Id), ["type"] = "Range",
            ["label"] = WalkAnnotations.Text(plan.Walk.Language, s.Step.Title.Length > 0 ? s.Step.Title : (i + 1).ToString(CultureInfo.InvariantCulture)), ["items"] = new JsonArray(Annotations.Target(s)),
        })]),
    };

    private static JsonObject Pair(string label, string value) => new() { ["label"] = WalkAnnotations.Text("en", label), ["value"] = WalkAnnotations.Text("none", value) };
}
