using System.Globalization;
using System.Text.Json;
using NetTopologySuite.Features;
using NetTopologySuite.Geometries;
using NetTopologySuite.IO.Converters;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Sections;

/// <summary>
/// How a person steers boundaries, step by step, as a GeoJSON feature collection (RFC 7946) in micrograph pixels: a point through which a boundary passes, a line along which it runs, and, with the
/// property <c>edit</c> "remove", a point at which it is taken out. Steps with the same property <c>boundary</c> are of one boundary, any other is of its own; <c>meant</c> is a place [x, y] on the
/// boundary that a step is of where it lies away from it.
/// </summary>
public sealed class Steering
{
    private const int MostSteps = 2000, MostPlaces = 10_000;

    private static readonly JsonSerializerOptions Json = new() { Converters = { new GeoJsonConverterFactory() } };

    private Steering(IReadOnlyList<SteeringStep> steps) => Steps = steps;

    /// <summary>The steps in the order in which they were taken.</summary>
    public IReadOnlyList<SteeringStep> Steps { get; }

    /// <summary>Reads steps; an empty text holds none.</summary>
    /// <exception cref="InputProblem">"clicks": not GeoJSON, something else than points and lines, places that are not numbers, too many, a line without length, an edit that is not known.</exception>
    public static Steering Read(string geoJson)
    {
        if (string.IsNullOrWhiteSpace(geoJson)) return new Steering([]);
        var features = Parse(geoJson);
        if (features.Count > MostSteps) throw Problem(string.Create(CultureInfo.InvariantCulture, $"There are {features.Count} steps."), $"Give at most {MostSteps}.");
        SteeringStep[] steps = [.. features.Select((f, i) => StepOf(f, i + 1))];
        return steps.Sum(s => s.Places.Count) is > MostPlaces and var places
            ? throw Problem(string.Create(CultureInfo.InvariantCulture, $"The steps have {places} places."), $"Give at most {MostPlaces}: leave out what lies on a straight line between others.")
            : new Steering(steps);
    }

    /// <summary>The same steps in one fixed form, everything that came with them kept.</summary>
    /// <exception cref="InputProblem">As <see cref="Read"/>.</exception>
    public static string Canonical(string geoJson)
    {
        Read(geoJson);
        if (string.IsNullOrWhiteSpace(geoJson)) return "";
        using var document = JsonDocument.Parse(geoJson);
        return JsonSerializer.Serialize(document.RootElement);
    }

    /// <summary>The problem of a step that cannot be taken.</summary>
    internal static InputProblem Problem(string message, string remedy, Exception? cause = null) => new("clicks", "clicks", message, remedy, cause);

    private static FeatureCollection Parse(string geoJson)
    {
        try
        {
            return JsonSerializer.Deserialize<FeatureCollection>(geoJson, Json) ?? throw new JsonException("null");
        }
        catch (Exception e) when (e is JsonException or ArgumentException or InvalidOperationException or NotSupportedException or FormatException)
        {
            throw Problem("The clicks are not a GeoJSON feature collection.", "Give {\"type\": \"FeatureCollection\", \"features\": [...]}, each feature a point or a line in pixels.", e);
        }
    }

    private static SteeringStep StepOf(IFeature feature, int number)
    {
        var places = PlacesOf(feature, number);
        var kind = feature.Attributes?.GetOptionalValue("edit") switch
        {
            null => places.Length > 1 ? SteeringKind.Stretch : SteeringKind.Click,
            "remove" when places.Length == 1 => SteeringKind.Removal,
            _ => throw Problem($"Step {number} is an edit that is not known.", "The one edit is \"remove\", of a point on the boundary to be taken out."),
        };
        return new SteeringStep(kind, NameOf(feature) ?? string.Create(CultureInfo.InvariantCulture, $"#{number}"), places, MeantBy(feature, number) ?? places[0]);
    }

    private static string? NameOf(IFeature feature) => feature.Attributes?.GetOptionalValue("boundary") switch
    {
        string name when name.Trim().Length > 0 => name.Trim(),
        IFormattable number => number.ToString(null, CultureInfo.InvariantCulture),
        _ => null,
    };

    private static Point2[] PlacesOf(IFeature feature, int number)
    {
        if (feature.Geometry is not (Point { IsEmpty: false } or LineString { IsEmpty: false }) || !feature.Geometry.Coordinates.All(c => double.IsFinite(c.X) && double.IsFinite(c.Y)))
            throw Problem($"Step {number} is not a point, nor a line.", "Give points and lines in pixels of the micrograph in visible light.");
        return feature.Geometry is Point or LineString { Length: > 0 } ? [.. feature.Geometry.Coordinates.Select(c => new Point2(c.X, c.Y))]
            : throw Problem($"The line of step {number} has no length.", "Draw along the boundary, or give a point.");
    }

    private static Point2? MeantBy(IFeature feature, int number)
    {
        if (feature.Attributes?.GetOptionalValue("meant") is not { } meant) return null;
        double[] place = meant is IEnumerable<object> values ? [.. values.Select(v => v is IConvertible c and not string ? c.ToDouble(CultureInfo.InvariantCulture) : double.NaN)] : [];
        return place is [var x, var y] && double.IsFinite(x) && double.IsFinite(y) ? new Point2(x, y) : throw Problem($"What step {number} means is not a place.", "Give \"meant\" as [x, y] in pixels, or leave it out.");
    }
}
