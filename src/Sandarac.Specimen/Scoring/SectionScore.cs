using System.Text.Json;
using NetTopologySuite.Geometries;

namespace Sandarac.Specimen.Scoring;

/// <summary>Boundaries found in a drawn section, against its truth. For tests, benchmarks and anyone who has a way of finding them; nothing that examines micrographs may use it.</summary>
public sealed class SectionScore
{
    /// <summary>Ends of a found line are not judged, pixels; a line that leaves out more of the true one than this share is wrong.</summary>
    private const double Ends = 3, MostLeftOut = 0.15;

    /// <summary>Every so many-th place makes the line along which a layer's length is measured: its thickness stands across its direction, not across each of its bumps.</summary>
    private const int Coarse = 5;

    private readonly LineString[] _truth;

    private SectionScore(LineString[] truth, string[] names, double umPerPixel, double obliquityDegrees) => (_truth, Names, UmPerPixel, ObliquityDegrees) = (truth, names, umPerPixel, obliquityDegrees);

    /// <summary>What the layers are, from the bottom.</summary>
    public IReadOnlyList<string> Names { get; }

    /// <summary>Size of a pixel.</summary>
    public double UmPerPixel { get; }

    /// <summary>Obliquity of the cut.</summary>
    public double ObliquityDegrees { get; }

    /// <summary>Layers.</summary>
    public int Layers => Names.Count;

    /// <summary>The true boundaries from the section's lower edge upward, in pixels.</summary>
    public IReadOnlyList<LineString> Boundaries => _truth;

    /// <summary>Reads the truth of a section.</summary>
    /// <param name="folder">The folder into which it was drawn.</param>
    /// <param name="seed">Its seed.</param>
    public static SectionScore Read(string folder, int seed)
    {
        using var file = JsonDocument.Parse(File.ReadAllText(Path.Combine(folder, "truth", FormattableString.Invariant($"section_{seed:0000}.json"))));
        var root = file.RootElement;
        var layers = root.GetProperty("layers").EnumerateArray().ToArray();
        return new SectionScore([Line(root.GetProperty("brokenEdge")), .. layers.Select(l => Line(l.GetProperty("upperBoundary")))],
            [.. layers.Select(l => l.GetProperty("name").GetString()!)], root.GetProperty("umPerPixel").GetDouble(), root.GetProperty("obliquityDegrees").GetDouble());
    }

    /// <summary>A place on a boundary where a person would click: in the middle half, where the layers on both sides are there if they are anywhere in it.</summary>
    /// <param name="boundary">The boundary, 0 for the section's lower edge.</param>
    /// <param name="at">Which of these places, 0 to 1.</param>
    public Coordinate Click(int boundary, double at)
    {
        var places = _truth[boundary].Coordinates;
        int[] middle = [.. Enumerable.Range(places.Length / 4, places.Length / 2)];
        int[] clear = [.. middle.Where(i => Clear(boundary, boundary - 1, i) && Clear(boundary, boundary + 1, i))];
        var among = clear.Length > 0 ? clear : middle;
        return places[among[(int)(at * (among.Length - 1))]];
    }

    private bool Clear(int a, int b, int i) => b < 0 || b >= _truth.Length || _truth[a].GetCoordinateN(i).Distance(_truth[b].GetCoordinateN(i)) > Ends;

    /// <summary>Mean distance of a true boundary's places from a found line, pixels; infinite when the line leaves out too much of it.</summary>
    public double MeanError(int boundary, LineString found)
    {
        var box = found.EnvelopeInternal;
        var places = _truth[boundary].Coordinates;
        Coordinate[] judged = [.. places.Where(c => c.X > box.MinX + Ends && c.X < box.MaxX - Ends)];
        return judged.Length < (1 - MostLeftOut) * places.Length ? double.PositiveInfinity : judged.Average(c => found.Distance(new Point(c)));
    }

    /// <summary>The same for the line that comes nearest.</summary>
    public double LeastError(int boundary, IEnumerable<LineString> found) => found.Select(f => MeanError(boundary, f)).DefaultIfEmpty(double.PositiveInfinity).Min();

    /// <summary>Mean thickness over all of the section, um, perpendicular to the layer and as it would be on a perpendicular cut: its area over its length.</summary>
    /// <param name="layer">Counted from 1 at the bottom.</param>
    public double ThicknessUm(int layer)
    {
        var (lower, upper) = (_truth[layer - 1].Coordinates, _truth[layer].Coordinates);
        var area = new Polygon(new LinearRing([.. lower, .. upper.Reverse(), lower[0]])).Area;
        Coordinate[] middle = [.. lower.Zip(upper, (a, b) => new Coordinate((a.X + b.X) / 2, (a.Y + b.Y) / 2))];
        var length = new LineString([.. middle.Where((_, i) => i % Coarse == 0 || i == middle.Length - 1)]).Length;
        return area / length * UmPerPixel * Math.Cos(ObliquityDegrees * Math.PI / 180);
    }

    private static LineString Line(JsonElement places) => new([.. places.EnumerateArray().Select(p => new Coordinate(p[0].GetDouble(), p[1].GetDouble()))]);
}
