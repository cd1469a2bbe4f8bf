using NetTopologySuite.Geometries;
using Sandarac.Imaging.Geometry;
using Sandarac.Studio.Cleaning;
using Sandarac.Studio.Places;
using Sandarac.Studio.Record;

namespace Sandarac.Studio;

/// <summary>One photograph's values at a place, as the original file holds them.</summary>
/// <param name="LayerId">The layer that shows it.</param>
/// <param name="Light">Canonical code of the light.</param>
/// <param name="Label">What a person calls it.</param>
/// <param name="Pixel">The pixel of the original under the place: column, row, whole numbers.</param>
/// <param name="Values">The file's own values, one a band; null where a raster has no data.</param>
/// <param name="Bands">Names of the bands.</param>
/// <param name="Unit">Unit of the values.</param>
public sealed record ValuesHere(string LayerId, string? Light, string Label, Point2 Pixel, IReadOnlyList<double?> Values, IReadOnlyList<string> Bands, string Unit);

/// <summary>One photograph's values over a zone.</summary>
/// <param name="LayerId">The layer that shows it.</param>
/// <param name="Light">Canonical code of the light.</param>
/// <param name="Label">What a person calls it.</param>
/// <param name="Mean">Mean, one a band.</param>
/// <param name="StandardDeviation">Standard deviation of the pixels, one a band; 0 for a single pixel.</param>
/// <param name="Count">Pixels counted.</param>
/// <param name="Bands">Names of the bands.</param>
/// <param name="Unit">Unit of the values.</param>
public sealed record ValuesOverZone(string LayerId, string? Light, string Label, IReadOnlyList<double> Mean, IReadOnlyList<double> StandardDeviation,
    long Count, IReadOnlyList<string> Bands, string Unit);

/// <summary>What we know at a place.</summary>
/// <param name="Place">mm on the plane, y down.</param>
/// <param name="FromLeft">mm from the left edge.</param>
/// <param name="FromBottom">mm from the bottom edge.</param>
/// <param name="Values">Values in every aligned photograph and reading whose frame holds the place.</param>
/// <param name="Zones">Zones that hold the place, or lines and points within a millimetre of it.</param>
/// <param name="Samples">Samples taken within a centimetre of it, the nearest first.</param>
/// <param name="Tests">Cleaning tests within a centimetre of it, the nearest first.</param>
public sealed record PlaceKnown(Point2 Place, double FromLeft, double FromBottom, IReadOnlyList<ValuesHere> Values, IReadOnlyList<ZoneFacts> Zones, IReadOnlyList<SampleNear> Samples, IReadOnlyList<TestNear> Tests);

/// <summary>A sample near a place.</summary>
/// <param name="Sample">The sample.</param>
/// <param name="DistanceMm">How far away it was taken, mm.</param>
public sealed record SampleNear(Sample Sample, double DistanceMm);

/// <summary>A cleaning test near a place.</summary>
/// <param name="Test">The test.</param>
/// <param name="DistanceMm">How far away its spot is, mm.</param>
public sealed record TestNear(CleaningTest Test, double DistanceMm);

/// <summary>What we know over a zone.</summary>
/// <param name="Zone">The zone.</param>
/// <param name="Extent">How large it is.</param>
/// <param name="Values">Values in every aligned photograph and reading that the zone touches.</param>
/// <param name="Overlaps">Other zones that cover part of it.</param>
/// <param name="ConsistentWith">What its false colour and its luminescence are consistent with, where readings have prepared them.</param>
public sealed record ZoneKnown(ZoneFacts Zone, ZoneExtent Extent, IReadOnlyList<ValuesOverZone> Values, IReadOnlyList<ZoneOverlap> Overlaps, IReadOnlyList<LightConsistency> ConsistentWith);

/// <summary>Answers "what do we know here?" from the photographs' own pixels, never from resampled ones.</summary>
/// <remarks>Pixels are read from the original's pyramid, whose full level holds every sample of the file unchanged.</remarks>
public sealed class Here(OpenStudio studio)
{
    /// <summary>A line or point is "here" within this distance, mm.</summary>
    private const double NearMm = 1;

    /// <summary>What a sample or a test shows is asked for within this distance of its place, mm.</summary>
    private const double SampleMm = 10;

    /// <summary>At a place. A place maps through the alignment to the pixel that holds it: no interpolation, so the values are the file's own.</summary>
    /// <exception cref="Imaging.InputProblem">"unknown-painting".</exception>
    public PlaceKnown At(Guid paintingId, Point2 mm)
    {
        double height;
        using (var db = studio.CreateDb()) height = db.RequirePainting(paintingId).HeightMm;
        var place = new NetTopologySuite.Geometries.Point(mm.X, mm.Y);
        var zones = new Zones(studio).Of(paintingId).Where(z => ZoneGeometry.Read(z.Geometry) is var g && g.Distance(place) <= (g is IPolygonal ? 0 : NearMm));
        return new PlaceKnown(mm, mm.X, Place.FromBottom(mm.Y, height), [.. Sources(paintingId).Select(s => s.At(studio.Pyramids, mm)).OfType<ValuesHere>()], [.. zones], Near(paintingId, mm), TestsNear(paintingId, mm));
    }

    /// <summary>Over a zone: every original pixel whose centre lies in a polygon, or that a line or point touches.</summary>
    /// <exception cref="Imaging.InputProblem">"unknown-zone".</exception>
    /// <exception cref="OperationCanceledException">Cancelled: a zone over the whole face reads every photograph whole.</exception>
    public ZoneKnown Over(Guid zoneId, CancellationToken cancellation = default)
    {
        var zone = new Zones(studio).Find(zoneId);
        var geometry = ZoneGeometry.Read(zone.Geometry);
        using var db = studio.CreateDb();
        var alignments = db.PhotographsOf(zone.PaintingId).Select(p => p.Alignments.InForce()).OfType<Alignment>();
        ValuesOverZone[] values = [.. Sources(zone.PaintingId).Select(s => s.Over(studio.Pyramids, geometry, cancellation)).OfType<ValuesOverZone>()];
        return new ZoneKnown(zone, ZoneExtents.Of(geometry, db.RequirePainting(zone.PaintingId), alignments), values, ZoneExtents.Overlaps(zone, new Zones(studio).Of(zone.PaintingId)), Consistency.Of(values));
    }

    private IReadOnlyList<SampleNear> Near(Guid paintingId, Point2 mm) => [.. new Samples(studio).Of(paintingId).Where(s => s.Content is { X: not null, Y: not null })
        .Select(s => new SampleNear(s, mm.DistanceTo(new Point2(s.Content.X!.Value, s.Content.Y!.Value)))).Where(n => n.DistanceMm <= SampleMm).OrderBy(n => n.DistanceMm)];

    private IReadOnlyList<TestNear> TestsNear(Guid paintingId, Point2 mm) => [.. CleaningSpots.Of(studio, paintingId).Select(s => new TestNear(s.Test, mm.DistanceTo(s.Place))).Where(n => n.DistanceMm <= SampleMm).OrderBy(n => n.DistanceMm)];

    private IReadOnlyList<PixelsOnPlane> Sources(Guid paintingId)
    {
        using var db = studio.CreateDb();
        var photographs = db.PhotographsOf(paintingId).ToDictionary(p => p.Id);
        return [.. new Layers(studio).Of(paintingId).Where(l => l.OnPlane).Select(l => l.PhotographId is { } id
            ? new PixelsOnPlane(l, photographs[id].Pyramid!, photographs[id].Alignments.InForce()!.Map!.ToPixel)
            : new PixelsOnPlane(l, l.Pyramid, mm => new Point2((mm.X - l.Extent.Left) / l.MmPerPixel!.Value, (mm.Y - l.Extent.Top) / l.MmPerPixel!.Value)))];
    }
}
