using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using Sandarac.Studio.Record;

namespace Sandarac.Studio;

/// <summary>One text for one content: members by their names' code units, no blanks, as RFC 8785 (JSON Canonicalization Scheme) orders them; numbers as .NET writes them, the shortest that reads back.</summary>
internal static class CanonicalJson
{
    private static readonly JsonSerializerOptions Plain = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    public static string Of(object content) => Ordered(JsonSerializer.SerializeToNode(content, StudioJson.Options))!.ToJsonString(Plain);

    private static JsonNode? Ordered(JsonNode? node) => node switch
    {
        JsonObject members => new JsonObject(members.OrderBy(m => m.Key, StringComparer.Ordinal).Select(m => KeyValuePair.Create(m.Key, Ordered(m.Value)))),
        JsonArray items => new JsonArray([.. items.Select(Ordered)]),
        _ => node?.DeepClone(),
    };
}
