using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using Sandarac.Analysis.Lights;
using Sandarac.Materials.Terms;
using Sandarac.Studio.Archive.Rows;
using Sandarac.Studio.Record;
using Sandarac.Studio.Treatment;

namespace Sandarac.Studio.Archive;

/// <summary>
/// The record as linked data: in the terms of Linked Art 1.0 (https://linked.art/model/) where it has them, in our own, which context.jsonld defines, where it has none. record.json has everything; this is what other collections' programs understand.
/// Concepts of the Getty's thesaurus are those that Linked Art's own pages use.
/// </summary>
internal static class LinkedRecord
{
    /// <summary>Names our own terms; a made-up number that is nobody else's, for it needs no owner of a domain.</summary>
    private const string Namespace = "urn:uuid:6f2b1a4e-5d0c-4f6a-9a57-3c1f0e8d7b21#";

    private static readonly string[] Own = ["sandarac_zone", "sandarac_sample", "sandarac_layer", "sandarac_light", "sandarac_confidence", "sandarac_sha256", "sandarac_geometry", "sandarac_kind", "sandarac_from_left_mm", "sandarac_from_top_mm", "sandarac_number", "sandarac_thickness_um"];

    public static void Write(Stream stream, RecordRows rows, PackPlan plan)
    {
        var painting = rows.Painting;
        var thing = new JsonObject
        {
            ["@context"] = new JsonArray { "https://linked.art/ns/v1/linked-art.json", "context.jsonld" }, ["id"] = Urn(painting.Id), ["type"] = "HumanMadeObject", ["_label"] = painting.Title,
            ["classified_as"] = new JsonArray { Type("300033618", "Painting", Type("300435443", "Type of Work")) },
            ["identified_by"] = Names(painting),
        };
        Put(thing, "referred_to_by", [.. new[] { painting.Technique, painting.Support }.OfType<string>().Select(Statement)]);
        Put(thing, "dimension", Dimensions(painting));
        if (painting.DateFrom is not null || painting.DateTo is not null) thing["produced_by"] = new JsonObject { ["type"] = "Production", ["timespan"] = Years(painting.DateFrom, painting.DateTo) };
        Put(thing, "representation", [.. rows.Of<Photograph>().Where(p => p.Subject is PhotographSubject.Painting or PhotographSubject.Detail).OrderBy(p => p.FileName, StringComparer.Ordinal).ThenBy(p => p.Id).Select(p => Picture(p, plan))]);
        var treatments = rows.Of<Finding>().Where(f => f.DeletedAt is null).ToLookup(f => TermOf(f.Content.Term, rows).Category == "treatment");
        Put(thing, "attributed_by", [.. treatments[false].OrderBy(f => f.Content.Number).Select(f => Stated(f, rows, "AttributeAssignment", "assigned"))]);
        var steps = rows.Of<TreatmentStep>().ToDictionary(s => s.Id, s => s.Content);
        Put(thing, "modified_by", [.. treatments[true].OrderBy(f => f.Content.Number).Select(f => Stated(f, rows, "Modification", "technique")), .. TreatmentLog.InOrder(rows.Of<LogEntry>().Where(e => e.DeletedAt is null)).Select(e => Logged(e, steps.GetValueOrDefault(e.Content.StepId), rows))]);
        Put(thing, "sandarac_zone", [.. rows.Of<Zone>().Where(z => !z.IsCandidate && z.DeletedAt is null).Select(ZoneOf)]);
        Put(thing, "sandarac_sample", [.. rows.Of<Sample>().Where(s => s.DeletedAt is null).Select(s => SampleOf(s, rows, plan))]);
        Write(stream, thing);
    }

    /// <summary>Our own terms.</summary>
    public static void WriteContext(Stream stream)
    {
        var terms = new JsonObject();
        foreach (var term in Own) terms[term] = term == "sandarac_geometry" ? new JsonObject { ["@id"] = Namespace + term, ["@type"] = "@json" } : Namespace + term;
        Write(stream, new JsonObject { ["@context"] = terms });
    }

    private static void Write(Stream stream, JsonObject thing)
    {
        using var writer = new Utf8JsonWriter(stream, RecordJson.Written);
        thing.WriteTo(writer);
    }

    private static JsonArray Names(Painting painting)
    {
        JsonArray names = [new JsonObject { ["type"] = "Name", ["content"] = painting.Title }];
        if (painting.AccessionNumber is { } number) names.Add(new JsonObject { ["type"] = "Identifier", ["content"] = number, ["classified_as"] = new JsonArray { Type("300312355", "Accession Number") } });
        return names;
    }

    private static JsonArray Dimensions(Painting painting) => painting.WidthMm > 0 && painting.HeightMm > 0
        ? [Dimension("300055644", "Height", painting.HeightMm, painting.SizeUncertainty), Dimension("300055647", "Width", painting.WidthMm, painting.SizeUncertainty)] : [];

    /// <summary>Limits are those of the 95 % interval; without them nobody said how sure the size is.</summary>
    private static JsonObject Dimension(string concept, string label, double mm, double? share)
    {
        var dimension = new JsonObject { ["type"] = "Dimension", ["classified_as"] = new JsonArray { Type(concept, label) }, ["value"] = mm, ["unit"] = new JsonObject { ["id"] = Concept("300379097"), ["type"] = "MeasurementUnit", ["_label"] = "mm" } };
        if (share is { } s && double.IsFinite(mm * (1 + s))) (dimension["lower_value_limit"], dimension["upper_value_limit"]) = (mm * (1 - s), mm * (1 + s));
        return dimension;
    }

    private static JsonObject Picture(Photograph p, PackPlan plan)
    {
        var file = new JsonObject { ["type"] = "DigitalObject", ["_label"] = p.FileName, ["access_point"] = new JsonArray { new JsonObject { ["id"] = Address(plan.PathOf(p.Sha256)), ["type"] = "DigitalObject" } }, ["sandarac_sha256"] = p.Sha256 };
        if (p.Light is { } light) file["sandarac_light"] = light;
        return new JsonObject { ["type"] = "VisualItem", ["digitally_shown_by"] = new JsonArray { file } };
    }

    /// <summary>A finding: of a condition or a technique the assignment of a class, of a treatment a modification, both by a person on a day and with what she says.</summary>
    private static JsonObject Stated(Finding finding, RecordRows rows, string type, string of)
    {
        var (content, term) = (finding.Content, TermOf(finding.Content.Term, rows));
        var stated = new JsonObject { ["id"] = Urn(finding.Id), ["type"] = type, ["_label"] = string.Create(CultureInfo.InvariantCulture, $"Finding {content.Number}"), ["sandarac_confidence"] = $"{content.Confidence}" };
        if (term.Name.Length > 0) stated[of] = new JsonArray { Called(term.Concept, term.Name) };
        if (content.Author.Length > 0) stated["carried_out_by"] = new JsonArray { Person(content.Author) };
        // A treatment was seen on that day, not done.
        if (content.SeenOn is { } day && type == "AttributeAssignment") stated["timespan"] = Day(day);
        Put(stated, "referred_to_by", [.. new[] { content.Observation, content.Interpretation }.Where(t => t.Length > 0).Select(Statement)]);
        Put(stated, "sandarac_zone", [.. content.Zones.Select(z => (JsonNode)new JsonObject { ["id"] = Urn(z) })]);
        return stated;
    }

    /// <summary>An entry of the treatment's log: a modification that was carried out on a day, by a person, with what was used in words.</summary>
    private static JsonObject Logged(LogEntry entry, TreatmentStepContent? step, RecordRows rows)
    {
        var content = entry.Content;
        var logged = new JsonObject { ["id"] = Urn(entry.Id), ["type"] = "Modification", ["_label"] = step?.Name ?? "" };
        if (step is { Operation.Length: > 0 }) logged["technique"] = new JsonArray { Called(TermOf(step.Operation, rows).Concept, StudioTerms.NameOf(step.Operation)) };
        if (content.Who.Length > 0) logged["carried_out_by"] = new JsonArray { Person(content.Who) };
        if (content.On is { } day) logged["timespan"] = Day(day);
        Put(logged, "referred_to_by", [.. content.Materials.Select(m => string.Join(", ", new[] { m.Name, m.Amount is { } amount ? string.Create(CultureInfo.InvariantCulture, $"{amount} {m.Unit}") : "", m.Batch, $"{m.Use}" }.Where(t => t.Length > 0)))
            .Prepend(content.Departure).Prepend(content.NewlySeen).Prepend(content.What).Where(t => t.Length > 0).Select(Statement)]);
        Put(logged, "sandarac_zone", [.. content.Zones.Select(z => (JsonNode)new JsonObject { ["id"] = Urn(z) })]);
        return logged;
    }

    /// <summary>The thesaurus' concept only where its label is the term: what is merely near it would be another statement.</summary>
    private static (string Category, string Name, string? Concept) TermOf(string key, RecordRows rows) =>
        Term.All.FirstOrDefault(t => t.Key == key) is { } known ? (known.Category, known.Name, known.Match == ThesaurusMatch.Label ? known.Aat : null)
        : (rows.Of<HouseTerm>().FirstOrDefault(t => t.Key == key)?.Category ?? "", StudioTerms.NameOf(key), null);

    private static JsonObject Called(string? concept, string name) => concept is null ? new JsonObject { ["type"] = "Type", ["_label"] = name } : Type(concept, name);

    private static JsonObject Person(string name) => new() { ["type"] = "Person", ["_label"] = name };

    private static JsonObject Day(DateOnly day) => new() { ["type"] = "TimeSpan", ["begin_of_the_begin"] = $"{day:yyyy-MM-dd}T00:00:00Z", ["end_of_the_end"] = $"{day:yyyy-MM-dd}T23:59:59Z" };

    private static JsonObject ZoneOf(Zone zone) => new() { ["id"] = Urn(zone.Id), ["_label"] = zone.Name, ["sandarac_kind"] = zone.Kind, ["sandarac_geometry"] = JsonNode.Parse(zone.Geometry) };

    private static JsonObject SampleOf(Sample sample, RecordRows rows, PackPlan plan)
    {
        var content = sample.Content;
        var thing = new JsonObject { ["id"] = Urn(sample.Id), ["type"] = "HumanMadeObject", ["_label"] = content.Number, ["sandarac_from_left_mm"] = content.X, ["sandarac_from_top_mm"] = content.Y };
        Put(thing, "referred_to_by", [.. new[] { content.Observation, content.Interpretation }.Where(t => t.Length > 0).Select(Statement)]);
        Put(thing, "representation", [.. rows.Of<Photograph>().Where(p => content.Micrographs.Contains(p.Id)).Select(p => Picture(p, plan))]);
        Put(thing, "sandarac_layer", [.. rows.Of<SectionLayer>().Where(l => l.DeletedAt is null && l.Content.SampleId == sample.Id).OrderBy(l => l.Content.Number, StringComparer.Ordinal).Select(l => (JsonNode)new JsonObject
        {
            ["id"] = Urn(l.Id), ["_label"] = l.Content.Name, ["sandarac_number"] = l.Content.Number, ["sandarac_thickness_um"] = l.Content.MeanUm,
        })]);
        return thing;
    }

    private static JsonObject Statement(string text) => new() { ["type"] = "LinguisticObject", ["classified_as"] = new JsonArray { Type("300435416", "Description", Type("300418049", "Brief Text")) }, ["content"] = text };

    private static JsonObject Years(int? from, int? to)
    {
        var span = new JsonObject { ["type"] = "TimeSpan" };
        if (from is { } first) span["begin_of_the_begin"] = string.Create(CultureInfo.InvariantCulture, $"{first:0000}-01-01T00:00:00Z");
        if (to is { } last) span["end_of_the_end"] = string.Create(CultureInfo.InvariantCulture, $"{last:0000}-12-31T23:59:59Z");
        return span;
    }

    private static JsonObject Type(string concept, string label, JsonObject? itself = null)
    {
        var type = new JsonObject { ["id"] = Concept(concept), ["type"] = "Type", ["_label"] = label };
        if (itself is not null) type["classified_as"] = new JsonArray { itself };
        return type;
    }

    private static string Concept(string number) => $"http://vocab.getty.edu/aat/{number}";

    private static string Urn(Guid id) => $"urn:uuid:{id}";

    private static string Address(string path) => "../" + string.Join('/', path.Split('/').Select(Uri.EscapeDataString));

    private static void Put(JsonObject thing, string name, JsonArray values)
    {
        if (values.Count > 0) thing[name] = values;
    }
}
