using Sandarac.Imaging.Geometry;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Cleaning;

/// <summary>A test with the place of its spot.</summary>
/// <param name="Test">The test.</param>
/// <param name="Place">mm on the plane, y down: where it was written down, else a place inside its zone.</param>
public sealed record CleaningSpot(CleaningTest Test, Point2 Place);

/// <summary>Where a painting's cleaning tests are.</summary>
public static class CleaningSpots
{
    /// <summary>Those whose place is known, in the order of their numbers.</summary>
    public static IReadOnlyList<CleaningSpot> Of(OpenStudio studio, Guid paintingId)
    {
        var zones = new Zones(studio).Of(paintingId).ToDictionary(z => z.Id);
        return [.. new CleaningTests(studio).Of(paintingId).OrderBy(t => t.Content.Number).Select(t => (Test: t, Place: PlaceOf(t.Content, zones))).Where(s => s.Place is not null).Select(s => new CleaningSpot(s.Test, s.Place!.Value))];
    }

    private static Point2? PlaceOf(CleaningTestContent test, Dictionary<Guid, ZoneFacts> zones)
    {
        if (test is { X: { } x, Y: { } y }) return new Point2(x, y);
        if (test.ZoneId is not { } id || zones.GetValueOrDefault(id) is not { } zone) return null;
        var inside = ZoneGeometry.Read(zone.Geometry).InteriorPoint;
        return inside.IsEmpty ? null : new Point2(inside.X, inside.Y);
    }
}
