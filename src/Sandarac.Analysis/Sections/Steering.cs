using System.Text.Json;
using NetTopologySuite.Features;
using NetTopologySuite.Geometries;
using NetTopologySuite.IO.Converters;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Sections;

/// <summary>Clicks through which boundaries pass: points as a GeoJSON feature collection (RFC 7946) in micrograph pixels; those with the same property <c>boundary</c> are of one boundary, any other is of its own.</summary>
public sealed class Steering
{
    private const int MostClicks = 2000;

    private static readonly JsonSerializerOptions Json = new() { Converters = { new GeoJsonConverterFactory() } };

    private Steering(IReadOnlyList<IReadOnlyList<Point2>> boundaries) => Boundaries = boundaries;

    /// <summary>Places of each boundary, in the order in which they first come.</summary>
    public IReadOnlyList<IReadOnlyList<Point2>> Boundaries { get; }

    /// <summary>Reads clicks; an empty text holds none.</summary>
    /// <exception cref="InputProblem">"clicks": not GeoJSON, something else than points, places that are not numbers, or too many.</exception>
    public static Steering Read(string geoJson)
    {
        if (string.IsNullOrWhiteSpace(geoJson)) return new Steering([]);
        var features = Parse(geoJson);
        if (features.Count > MostClicks) throw Problem(FormattableString.Invariant($"There are {features.Count} clicks."), FormattableString.Invariant($"Give at most {MostClicks}."));
        return new Steering([.. features.Select((f, i) => (Name: NameOf(f) ?? FormattableString.Invariant($"#{i}"), Place: PlaceOf(f, i + 1)))
            .GroupBy(c => c.Name, c => c.Place).Select(g => (IReadOnlyList<Point2>)[.. g])]);
    }

    /// <summary>The same clicks in one fixed form, everything that came with them kept.</summary>
    /// <exception cref="InputProblem">As <see cref="Read"/>.</exception>
    public static string Canonical(string geoJson)
    {
        Read(geoJson);
        if (string.IsNullOrWhiteSpace(geoJson)) return "";
        using var document = JsonDocument.Parse(geoJson);
        return JsonSerializer.Serialize(document.RootElement);
    }

    private static FeatureCollection Parse(string geoJson)
    {
        try
        {
            return JsonSerializer.Deserialize<FeatureCollection>(geoJson, Json) ?? throw new JsonException("null");
        }
        catch (Exception e) when (e is JsonException or ArgumentException or InvalidOperationException or NotSupportedException or FormatException)
        {
            throw Problem("The clicks are not a GeoJSON feature collection.", "Give {\"type\": \"FeatureCollection\", \"features\": [...]}, each feature a point in pixels.", e);
        }
    }

    private static string? NameOf(IFeature feature) => feature.Attributes?.GetOptionalValue("boundary") switch
    {
        string name when name.Trim().Length > 0 => name.Trim(),
        IFormattable number => number.ToString(null, System.Globalization.CultureInfo.InvariantCulture),
        _ => null,
    };

    private static Point2 PlaceOf(IFeature feature, int number) => feature.Geometry is Point { IsEmpty: false } p && double.IsFinite(p.X) && double.IsFinite(p.Y)
        ? new Point2(p.X, p.Y)
        : throw Problem(FormattableString.Invariant($"Click {number} is not a point."), "Give points in pixels of the micrograph in visible light.");

    private static InputProblem Problem(string message, string remedy, Exception? cause = null) => new("clicks", "clicks", message, remedy, cause);
}
