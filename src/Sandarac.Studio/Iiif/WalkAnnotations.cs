using System.Text.Json.Nodes;
using NetTopologySuite.Geometries;
using Sandarac.Studio.Walking;

namespace Sandarac.Studio.Iiif;

/// <summary>Zones and captions as annotations of the W3C Web Annotation Data Model (https://www.w3.org/TR/annotation-model/), as IIIF Presentation 3 takes them over.</summary>
/// <param name="plan">What is shown.</param>
/// <param name="canvas">Its canvas.</param>
/// <param name="addresses">Where it will lie.</param>
/// <param name="isAlone">Whether they are for programs that know no IIIF.</param>
internal sealed class WalkAnnotations(WalkPlan plan, CanvasGrid canvas, WalkAddresses addresses, bool isAlone = false)
{
    /// <summary>Both pages, those with nothing left out.</summary>
    public IEnumerable<JsonObject> Pages()
    {
        if (plan.Zones.Count > 0) yield return Page("zones", Text("en", "Zones"), plan.Zones.Select(Zone));
        if (plan.Steps.Count > 0) yield return Page("captions", Text(Language, plan.Walk!.Title), plan.Steps.Select(Caption));
    }

    /// <summary>The rectangle that a step shows, as tall as a window of 16 by 10: the target of its caption.</summary>
    public JsonObject Target(PlannedStep step)
    {
        var (halfWidth, halfHeight) = (step.Step.WidthMm / 2, step.Step.WidthMm * 10 / 16 / 2);
        var region = new Envelope(step.Step.X - halfWidth, step.Step.X + halfWidth, step.Step.Y - halfHeight, step.Step.Y + halfHeight);
        return new JsonObject { ["type"] = "SpecificResource", ["source"] = addresses.Canvas, ["selector"] = PlaneShapes.Fragment(region, canvas) };
    }

    /// <summary>All annotations as one page by themselves.</summary>
    public JsonObject Whole()
    {
        var items = Pages().SelectMany(p => p["items"]!.AsArray().Select(i => i!.DeepClone())).ToArray();
        return new JsonObject { ["@context"] = "http://www.w3.org/ns/anno.jsonld", ["id"] = addresses.Annotation(WalkAddresses.AnnotationsFile), ["type"] = "AnnotationPage", ["items"] = new JsonArray(items) };
    }

    private string Language => plan.Walk?.Language ?? "en";

    private JsonObject Page(string name, JsonObject label, IEnumerable<JsonObject> items) =>
        new() { ["id"] = addresses.Annotation(name), ["type"] = "AnnotationPage", ["label"] = label, ["items"] = new JsonArray([.. items]) };

    /// <summary>A zone stands for all lights: its target is the canvas.</summary>
    private JsonObject Zone(ZoneFacts zone)
    {
        var said = zone.Note.Length > 0 ? $"{zone.Name}: {zone.Note}" : zone.Name;
        return new JsonObject
        {
            ["id"] = addresses.Annotation("zones", zone.Id), ["type"] = "Annotation", ["motivation"] = new JsonArray("commenting", "tagging"),
            ["body"] = new JsonArray(Body(said, "commenting", null), Body(zone.Kind.Length > 0 ? zone.Kind : "note", "tagging", null)),
            ["target"] = new JsonObject { ["type"] = "SpecificResource", ["source"] = addresses.Canvas, ["selector"] = PlaneShapes.Selector(ZoneGeometry.Read(zone.Geometry), canvas, knowsPoints: !isAlone) },
        };
    }

    /// <summary>A caption is about a part of the canvas; a view of one light alone names its picture as the scope.</summary>
    private JsonObject Caption(PlannedStep step)
    {
        var target = Target(step);
        if (step.B is null && step.Over is null) target["scope"] = addresses.Whole(step.A);
        var said = string.Join("\n\n", new[] { step.Step.Title, step.Step.Caption }.Where(t => t.Length > 0));
        var shown = new[] { step.A, step.B, step.Over }.OfType<ExportedPicture>().Select(p => Body(p.Label, "tagging", "en"));
        return new JsonObject
        {
            ["id"] = addresses.Annotation("captions", step.Step.Id), ["type"] = "Annotation", ["motivation"] = new JsonArray("commenting", "tagging"),
            ["body"] = new JsonArray([Body(said.Length > 0 ? said : step.A.Label, "commenting", Language), .. shown]), ["target"] = target,
        };
    }

    /// <summary>Plain text: what looks like markup in it is none.</summary>
    private static JsonObject Body(string value, string purpose, string? language)
    {
        var body = new JsonObject { ["type"] = "TextualBody", ["value"] = value, ["format"] = "text/plain", ["purpose"] = purpose };
        if (language is not null) (body["language"], body["textDirection"]) = (language, "auto");
        return body;
    }

    /// <summary>A text with its language, as IIIF writes it.</summary>
    public static JsonObject Text(string language, string text) => new() { [language] = new JsonArray(text) };
}
