using System.Globalization;
using System.Text.Json.Nodes;
using Microsoft.AspNetCore.OpenApi;
using Microsoft.OpenApi;
using Sandarac.Analysis.Declaring;

namespace Sandarac.Server.Api;

/// <summary>Describes the body of a run in the API's description: one schema a reading, made from its declaration.</summary>
internal sealed class ReadingSchemas : IOpenApiDocumentTransformer
{
    public Task TransformAsync(OpenApiDocument document, OpenApiDocumentTransformerContext context, CancellationToken cancellationToken)
    {
        document.Info = new OpenApiInfo { Title = "Sandarac", Version = document.Info.Version, Description = "One studio's paintings. Lengths in mm on the plane, y down." };
        document.Servers = [];
        var readings = ReadingCatalogue.All.Select(r => DeclarationView.Of(r.Declaration)).ToList();
        foreach (var declaration in readings) document.AddComponent(SchemaId(declaration), Of(declaration));
        var start = document.Paths.Values.SelectMany(p => p.Operations?.Values.AsEnumerable() ?? []).Single(o => o.OperationId == RunsApi.StartOperation);
        start.RequestBody = new OpenApiRequestBody
        {
            Required = true,
            Content = new Dictionary<string, OpenApiMediaType>
            {
                ["application/json"] = new() { Schema = new OpenApiSchema { OneOf = [.. readings.Select(d => new OpenApiSchemaReference(SchemaId(d), document))] } },
            },
        };
        return Task.CompletedTask;
    }

    private static string SchemaId(DeclarationView declaration) => $"run-{declaration.Id}";

    private static OpenApiSchema Of(DeclarationView d) => Record($"{d.Title}, version {d.Version}. {d.Summary} {d.Limits} Source: {d.Citation}", new()
    {
        ["reading"] = new OpenApiSchema { Type = JsonSchemaType.String, Enum = [JsonValue.Create(d.Id)] },
        ["parameters"] = Record("What is left out has its default.", d.Parameters.ToDictionary(p => p.Name, p => (IOpenApiSchema)Of(p))),
        ["inputs"] = Record("Photographs by their ids.", d.Inputs.ToDictionary(i => i.Name, i => (IOpenApiSchema)Of(i)), d.Inputs.Where(i => i.Minimum > 0).Select(i => i.Name)),
    }, ["reading", "inputs"]);

    private static OpenApiSchema Of(InputView slot) => new()
    {
        Type = JsonSchemaType.Array,
        Items = new OpenApiSchema { Type = JsonSchemaType.String, Format = "uuid" },
        MinItems = slot.Minimum,
        MaxItems = slot.Maximum,
        Description = slot.Help + (slot.Lights.Count == 0 ? "" : $" Lights: {string.Join(", ", slot.Lights)}."),
    };

    private static OpenApiSchema Of(ParameterView p) => new()
    {
        Type = p.Type switch
        {
            "choice" => JsonSchemaType.String,
            "flag" => JsonSchemaType.Boolean,
            "integer" => JsonSchemaType.Integer,
            "document" => JsonSchemaType.Object,
            _ => JsonSchemaType.Number,
        },
        Title = p.Label,
        Description = $"{p.Help} {p.Range}.",
        Default = p.Type == "document" ? null : p.Choices is null ? JsonNode.Parse(p.Default) : JsonValue.Create(p.Default),
        Minimum = p.Minimum?.ToString("R", CultureInfo.InvariantCulture),
        Maximum = p.Maximum?.ToString("R", CultureInfo.InvariantCulture),
        Enum = p.Choices is null ? null : [.. p.Choices.Select(c => JsonValue.Create(c))],
    };

    private static OpenApiSchema Record(string description, Dictionary<string, IOpenApiSchema> properties, IEnumerable<string>? required = null) => new()
    {
        Type = JsonSchemaType.Object,
        Description = description,
        Properties = properties,
        Required = required?.ToHashSet(),
        AdditionalPropertiesAllowed = false,
    };
}
