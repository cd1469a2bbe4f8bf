using System.Text.Json;
using System.Text.Json.Nodes;
using Json.Schema;

namespace Sandarac.Studio.Tests.Support;

/// <summary>Judges JSON by JSON Schemas that refer to each other by their files' names.</summary>
public sealed class Schemas
{
    private static readonly Uri Home = new("https://schemas.example/");
    private readonly EvaluationOptions _options = new() { OutputFormat = OutputFormat.List, RequireFormatValidation = true };
    private readonly Dictionary<string, JsonSchema> _schemas = [];

    /// <summary>Reads schemas.</summary>
    public Schemas(IEnumerable<string> files)
    {
        foreach (var path in files)
        {
            var name = Path.GetFileName(path);
            using var text = JsonDocument.Parse(File.ReadAllText(path));
            var schema = JsonSchema.FromText(Modern(name, text.RootElement));
            _schemas[name] = schema;
            _options.SchemaRegistry.Register(schema);
        }
    }

    /// <summary>What is wrong with it by one schema; empty when nothing is.</summary>
    public IReadOnlyList<string> Complaints(string schema, JsonNode json)
    {
        var result = _schemas[schema].Evaluate(json, _options);
        if (result.IsValid) return [];
        var said = result.Details.Where(d => d.HasErrors).SelectMany(d => d.Errors!.Select(e => $"{d.InstanceLocation}: {e.Value}")).ToList();
        return said.Count > 0 ? said : ["refused"];
    }

    private static string Modern(string name, JsonElement schema)
    {
        var own = (JsonObject)Modern(schema, name)!;
        if (own["id"] is JsonValue) own.Remove("id");
        var modern = new JsonObject { ["$schema"] = "http://json-schema.org/draft-07/schema#", ["$id"] = new Uri(Home, name).ToString() };
        foreach (var (key, value) in own) modern[key] = value?.DeepClone();
        if (modern["types"] is null) return modern.ToJsonString();
        // IIIF keeps its definitions where no validator looks for any.
        modern["definitions"] = new JsonObject();
        foreach (var place in (string[])["types", "classes"])
        {
            foreach (var (key, value) in modern[place]!.AsObject()) modern["definitions"]![$"{place}-{key}"] = value!.DeepClone();
            modern.Remove(place);
        }
        return modern.ToJsonString().Replace("#/types/", "#/definitions/types-", StringComparison.Ordinal).Replace("#/classes/", "#/definitions/classes-", StringComparison.Ordinal);
    }

    /// <summary>Drafts 4 and 7 differ for these files in the name of a schema's own address and in how an excluded minimum is written; of a name that stands twice in one object the last counts.</summary>
    private static JsonNode? Modern(JsonElement node, string name)
    {
        if (node.ValueKind == JsonValueKind.Array) return new JsonArray([.. node.EnumerateArray().Select(n => Modern(n, name))]);
        if (node.ValueKind != JsonValueKind.Object) return JsonNode.Parse(node.GetRawText());
        var modern = new JsonObject();
        foreach (var property in node.EnumerateObject()) modern[property.Name] = Modern(property.Value, name);
        // Whole addresses: the validator loses sight of the file that it is in.
        if (modern["$ref"] is JsonValue reference) modern["$ref"] = new Uri(new Uri(Home, name), (string)reference!).ToString();
        modern.Remove("$schema");
        modern.Remove("$id");
        if (modern["exclusiveMinimum"] is JsonValue value && value.TryGetValue<bool>(out var excluded))
        {
            modern.Remove("exclusiveMinimum");
            if (excluded && modern.Remove("minimum", out var minimum)) modern["exclusiveMinimum"] = minimum;
        }
        return modern;
    }
}
