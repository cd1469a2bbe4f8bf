using System.Text.Json;
using NetTopologySuite.Geometries;
using NetTopologySuite.IO.Converters;
using Sandarac.Imaging;

namespace Sandarac.Specimen.Scoring;

/// <summary>Reads places from a GeoJSON file (RFC 7946, but for its coordinates: millimetres from the face's upper left corner, y down).</summary>
public static class FoundZones
{
    private static readonly JsonSerializerOptions Options = new() { Converters = { new GeoJsonConverterFactory() } };

    /// <summary>The features' property "kind" and their polygons.</summary>
    /// <exception cref="InputProblem">"zones-file": no such file, no GeoJSON, a feature without kind or area.</exception>
    public static IReadOnlyList<(string Kind, Geometry Place)> Read(string path)
    {
        try
        {
            using var file = JsonDocument.Parse(File.ReadAllText(path));
            return [.. file.RootElement.GetProperty("features").EnumerateArray().Select(Feature)];
        }
        catch (Exception wrong) when (wrong is IOException or UnauthorizedAccessException or JsonException or InvalidOperationException or KeyNotFoundException or ArgumentException)
        {
            throw new InputProblem("zones-file", path, $"{path} cannot be read as zones: {wrong.Message}", "Give a GeoJSON FeatureCollection; each feature a Polygon or MultiPolygon in mm, y down, with a property \"kind\".");
        }
    }

    /// <summary>One GeoJSON geometry.</summary>
    public static Geometry Geometry(string json) => JsonSerializer.Deserialize<Geometry>(json, Options)!;

    private static (string, Geometry) Feature(JsonElement feature) => feature.GetProperty("geometry").Deserialize<Geometry>(Options) is { } place and (Polygon or MultiPolygon) && place.IsValid
        ? (feature.GetProperty("properties").GetProperty("kind").GetString() ?? throw new JsonException("a kind is null"), place)
        : throw new JsonException("a geometry is no valid polygon");
}
