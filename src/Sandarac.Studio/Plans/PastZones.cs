using Microsoft.EntityFrameworkCore;
using NetTopologySuite.Geometries;
using NetTopologySuite.Geometries.Utilities;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Plans;

/// <summary>Zones as they stood at a moment, from their history.</summary>
internal sealed class PastZones
{
    /// <summary>What the record says when the painting's size was corrected: the same places in corrected millimetres, no change of a zone.</summary>
    private const string Moved = "moved with the painting's size";

    private readonly Dictionary<Guid, (Zone Zone, IReadOnlyList<ZoneChange> History)> _zones;

    private PastZones(IEnumerable<Zone> zones, ILookup<Guid, ZoneChange> changes) => _zones = zones.ToDictionary(z => z.Id, z => (z, (IReadOnlyList<ZoneChange>)[.. changes[z.Id].OrderBy(c => c.Revision)]));

    /// <summary>All zones of a painting with their histories, to be asked for several moments.</summary>
    public static PastZones Read(StudioDb db, Guid paintingId) => new(db.Zones.AsNoTracking().Where(z => z.PaintingId == paintingId).ToList(),
        db.ZoneChanges.AsNoTracking().Where(c => db.Zones.Any(z => z.Id == c.ZoneId && z.PaintingId == paintingId)).AsEnumerable().ToLookup(c => c.ZoneId));

    /// <summary>The zones of a painting that existed at a moment, by key.</summary>
    public static IReadOnlyDictionary<Guid, PlanZone> At(StudioDb db, Guid paintingId, DateTime moment)
    {
        var past = Read(db, paintingId);
        return past._zones.Keys.Select(id => past.At(id, moment)).OfType<PlanZone>().ToDictionary(z => z.Id);
    }

    /// <summary>How many of some zones people changed after a moment.</summary>
    public static int ChangedSince(StudioDb db, IReadOnlyCollection<Guid> zones, DateTime moment) =>
        db.ZoneChanges.AsNoTracking().Where(c => c.At > moment && c.What != Moved).Select(c => c.ZoneId).Distinct().AsEnumerable().Count(zones.Contains);

    /// <summary>A zone at a moment; null when it was not there then.</summary>
    public PlanZone? At(Guid zoneId, DateTime moment) => _zones.TryGetValue(zoneId, out var zone) ? Of(zone.Zone, zone.History, moment) : null;

    /// <summary>Names of those of some zones that people changed after a moment.</summary>
    public IReadOnlyList<string> Changed(IEnumerable<Guid> zones, DateTime since) => [.. zones.Select(z => _zones.GetValueOrDefault(z)).Where(z => z.History?.Any(c => c.At > since && c.What != Moved) == true).Select(z => z.Zone.Name)];

    private static PlanZone? Of(Zone zone, IReadOnlyList<ZoneChange> history, DateTime moment)
    {
        if (history.LastOrDefault(c => c.At <= moment) is not { } then) return history.Count == 0 && zone.CreatedAt <= moment && zone.DeletedAt is null ? new PlanZone(zone.Id, zone.Name, zone.Revision, ZoneGeometry.Read(zone.Geometry)) : null;
        return then.What == "deleted" ? null : new PlanZone(zone.Id, then.Name, then.Revision, Corrected(then, history));
    }

    /// <summary>In today's millimetres: sizes that were corrected later are applied to what was drawn before.</summary>
    private static Geometry Corrected(ZoneChange then, IReadOnlyList<ZoneChange> history)
    {
        var geometry = ZoneGeometry.Read(then.Geometry);
        var factor = history.Zip(history.Skip(1)).Where(p => p.Second.Revision > then.Revision && p.Second.What == Moved).Aggregate(1.0, (f, p) => f * Factor(p.First, p.Second));
        return factor == 1 ? geometry : AffineTransformation.ScaleInstance(factor, factor).Transform(geometry);
    }

    /// <summary>Places move away from the plane's origin by one factor; the farthest tells it best.</summary>
    private static double Factor(ZoneChange before, ZoneChange after)
    {
        static double Farthest(string geometry) => ZoneGeometry.Read(geometry).Coordinates.Max(c => Math.Sqrt(c.X * c.X + c.Y * c.Y));
        return Farthest(before.Geometry) is > 0 and var distance ? Farthest(after.Geometry) / distance : 1;
    }
}
