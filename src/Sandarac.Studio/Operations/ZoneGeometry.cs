using System.Text.Json;
using NetTopologySuite.Geometries;
using NetTopologySuite.IO.Converters;
using NetTopologySuite.Operation.Valid;
using Sandarac.Imaging;
using Sandarac.Studio.Record;

namespace Sandarac.Studio;

/// <summary>Zones' geometries: GeoJSON in mm on the plane, y down, read and checked here only.</summary>
internal static class ZoneGeometry
{
    private static readonly JsonSerializerOptions Json = new() { Converters = { new GeoJsonConverterFactory() } };

    /// <summary>Reads what a person drew.</summary>
    /// <exception cref="InputProblem">Not GeoJSON, of another kind, empty, not finite, or crossing itself.</exception>
    public static Geometry Read(string geoJson, Painting painting)
    {
        var geometry = Parse(geoJson);
        if (geometry is not (Point or LineString or Polygon or MultiPoint or MultiLineString or MultiPolygon))
            throw Problem($"A zone is a point, a line or a polygon, not a {geometry.GeometryType}.", "Draw one of these.");
        if (geometry.IsEmpty || geometry.Coordinates.Any(c => !double.IsFinite(c.X) || !double.IsFinite(c.Y)))
            throw Problem("The geometry has no points, or points that are not numbers.", "Draw it again.");
        if (geometry is IPolygonal) RequireSound(geometry, painting);
        return geometry;
    }

    /// <summary>Reads what the record holds.</summary>
    public static Geometry Read(string stored) => JsonSerializer.Deserialize<Geometry>(stored, Json)!;

    /// <summary>Writes GeoJSON.</summary>
    public static string Write(Geometry geometry) => JsonSerializer.Serialize(geometry, Json);

    private static Geometry Parse(string geoJson)
    {
        try
        {
            return JsonSerializer.Deserialize<Geometry>(geoJson, Json) ?? throw new JsonException("null");
        }
        catch (Exception e) when (e is JsonException or ArgumentException or InvalidOperationException or NotSupportedException or FormatException)
        {
            throw new InputProblem("zone-geometry", "geometry", "The geometry is not GeoJSON with coordinates in mm.", "Send a Point, LineString or Polygon.", e);
        }
    }

    private static void RequireSound(Geometry geometry, Painting painting)
    {
        if (new IsValidOp(geometry).ValidationError is not { } error) return;
        var where = error.Coordinate is null ? "" : $" at {Place.Text(error.Coordinate.X, error.Coordinate.Y, painting.HeightMm)}";
        throw Problem(error.ErrorType switch
        {
            TopologyValidationErrors.SelfIntersection or TopologyValidationErrors.RingSelfIntersection => $"The outline crosses itself{where}.",
            TopologyValidationErrors.TooFewPoints => $"The outline has too few points to enclose anything{where}.",
            _ => $"The outline is not sound{where}: {error.Message}.",
        }, "Move the points so that the outline encloses one area without crossing.");
    }

    private static InputProblem Problem(string message, string remedy) => new("zone-geometry", "geometry", message, remedy);
}
