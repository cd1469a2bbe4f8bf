using System.Text.Json;
using NetTopologySuite.Features;
using NetTopologySuite.Geometries;
using NetTopologySuite.IO.Converters;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Teaching;

/// <summary>A place of which a person says what it is.</summary>
/// <param name="Class">Position of its class in <see cref="Marks.Classes"/>.</param>
/// <param name="Geometry">A line (a stroke) or an area.</param>
internal sealed record Mark(int Class, Geometry Geometry);

/// <summary>A person's marks: lines and areas, each with the name of a class, as a GeoJSON feature collection (RFC 7946) with the property <c>class</c>.</summary>
public sealed class Marks
{
    /// <summary>Classes that can be told apart in one run: each has a raster of its own.</summary>
    public const int MostClasses = 8;

    private const int MostMarks = 2000;

    private static readonly JsonSerializerOptions Json = new() { Converters = { new GeoJsonConverterFactory() } };

    private Marks(IReadOnlyList<string> classes, IReadOnlyList<Mark> all) => (Classes, All) = (classes, all);

    /// <summary>Names of the classes, in the order in which they first come.</summary>
    public IReadOnlyList<string> Classes { get; }

    /// <summary>The marks in their order.</summary>
    internal IReadOnlyList<Mark> All { get; }

    /// <summary>Reads marks; an empty text holds none.</summary>
    /// <exception cref="InputProblem">"marks": not GeoJSON, a mark without a class, neither a line nor an area, not sound, or too many.</exception>
    public static Marks Read(string geoJson)
    {
        if (string.IsNullOrWhiteSpace(geoJson)) return new Marks([], []);
        var features = Parse(geoJson);
        if (features.Count > MostMarks) throw Problem(FormattableString.Invariant($"There are {features.Count} marks."), FormattableString.Invariant($"Give at most {MostMarks}."));
        var named = features.Select((feature, i) => (Name: NameOf(feature, i + 1), Geometry: Sound(feature.Geometry, i + 1))).ToList();
        string[] classes = [.. named.Select(m => m.Name).Distinct()];
        if (classes.Length > MostClasses) throw Problem(FormattableString.Invariant($"The marks have {classes.Length} classes."), FormattableString.Invariant($"Give at most {MostClasses}."));
        return new Marks(classes, [.. named.Select(m => new Mark(Array.IndexOf(classes, m.Name), m.Geometry))]);
    }

    /// <summary>The same marks in one fixed form, everything that came with them kept.</summary>
    /// <exception cref="InputProblem">As <see cref="Read"/>.</exception>
    public static string Canonical(string geoJson)
    {
        Read(geoJson);
        if (string.IsNullOrWhiteSpace(geoJson)) return "";
        using var document = JsonDocument.Parse(geoJson);
        return JsonSerializer.Serialize(document.RootElement);
    }

    /// <summary>The same marks about the origin times as large; what else came with a mark, other than its properties, is left out.</summary>
    /// <exception cref="InputProblem">As <see cref="Read"/>.</exception>
    public static string Scaled(string geoJson, double factor)
    {
        Read(geoJson);
        var features = Parse(geoJson);
        foreach (var feature in features) feature.Geometry = NetTopologySuite.Geometries.Utilities.AffineTransformation.ScaleInstance(factor, factor).Transform(feature.Geometry);
        return JsonSerializer.Serialize(features, Json);
    }

    private static FeatureCollection Parse(string geoJson)
    {
        try
        {
            return JsonSerializer.Deserialize<FeatureCollection>(geoJson, Json) ?? throw new JsonException("null");
        }
        catch (Exception e) when (e is JsonException or ArgumentException or InvalidOperationException or NotSupportedException or FormatException)
        {
            throw Problem("The marks are not a GeoJSON feature collection.", "Give {\"type\": \"FeatureCollection\", \"features\": [...]}, each feature with a geometry and the property \"class\".", e);
        }
    }

    private static string NameOf(IFeature feature, int number) => feature.Attributes?.GetOptionalValue("class") is string name && name.Trim().Length is > 0 and <= 80
        ? name.Trim()
        : throw Problem(FormattableString.Invariant($"Mark {number} has no class."), "Give each mark the property \"class\": a name of at most 80 letters.");

    private static Geometry Sound(Geometry? geometry, int number)
    {
        if (geometry is not (LineString or MultiLineString or Polygon or MultiPolygon) || geometry.IsEmpty)
            throw Problem(FormattableString.Invariant($"Mark {number} is neither a line nor an area."), "Give lines and areas.");
        if (geometry.Coordinates.Any(c => !double.IsFinite(c.X) || !double.IsFinite(c.Y)) || geometry is IPolygonal && !geometry.IsValid)
            throw Problem(FormattableString.Invariant($"Mark {number} crosses itself, or has places that are not numbers."), "Draw it again.");
        return geometry;
    }

    private static InputProblem Problem(string message, string remedy, Exception? cause = null) => new("marks", "marks", message, remedy, cause);
}
