using Microsoft.EntityFrameworkCore;
using Sandarac.Imaging;
using Sandarac.Studio.Record;

namespace Sandarac.Studio;

/// <summary>Draws, changes, deletes and restores zones, keeping what each was at every revision.</summary>
public sealed class Zones(OpenStudio studio)
{
    /// <summary>A painting's zones, oldest first, without deleted ones.</summary>
    /// <exception cref="InputProblem">"unknown-painting".</exception>
    public IReadOnlyList<ZoneFacts> Of(Guid paintingId)
    {
        using var db = studio.CreateDb();
        db.RequirePainting(paintingId);
        return [.. db.Zones.AsNoTracking().Where(z => z.PaintingId == paintingId && z.DeletedAt == null).OrderBy(z => z.CreatedAt).ThenBy(z => z.Id).AsEnumerable().Select(ZoneFacts.Of)];
    }

    /// <summary>One zone, deleted or not.</summary>
    /// <exception cref="InputProblem">"unknown-zone".</exception>
    public ZoneFacts Find(Guid zoneId)
    {
        using var db = studio.CreateDb();
        return ZoneFacts.Of(Require(db, zoneId));
    }

    /// <summary>Adds a zone.</summary>
    /// <exception cref="InputProblem">"unknown-painting"; "zone-geometry": not GeoJSON, empty, crossing itself.</exception>
    public ZoneFacts Create(Guid paintingId, ZoneContent content)
    {
        using var db = studio.CreateDb();
        var painting = db.RequirePainting(paintingId);
        var now = studio.Now;
        var zone = new Zone { PaintingId = paintingId, Name = "", Geometry = "", CreatedAt = now, Revision = 0 };
        db.Zones.Add(zone);
        return Save(db, zone, painting, content, "created");
    }

    /// <summary>Changes a zone.</summary>
    /// <param name="zoneId">The zone.</param>
    /// <param name="revision">The revision the change was made on.</param>
    /// <param name="content">What it is now.</param>
    /// <exception cref="InputProblem">"unknown-zone"; "zone-geometry"; "zone-changed": someone changed it meanwhile.</exception>
    public ZoneFacts Change(Guid zoneId, int revision, ZoneContent content)
    {
        using var db = studio.CreateDb();
        var zone = RequireAt(db, zoneId, revision);
        if (zone.DeletedAt is not null) throw new InputProblem("zone-deleted", zone.Name, $"The zone \"{zone.Name}\" was deleted.", "Restore it first.");
        return Save(db, zone, db.RequirePainting(zone.PaintingId), content, "changed");
    }

    /// <summary>Deletes a zone; it can be restored. Deleting a deleted zone changes nothing.</summary>
    /// <exception cref="InputProblem">"unknown-zone"; "zone-changed".</exception>
    public ZoneFacts Delete(Guid zoneId, int revision)
    {
        using var db = studio.CreateDb();
        var zone = RequireAt(db, zoneId, revision);
        if (zone.DeletedAt is not null) return ZoneFacts.Of(zone);
        zone.DeletedAt = studio.Now;
        return Save(db, zone, "deleted");
    }

    /// <summary>Brings a deleted zone back, or a zone back to what it was at an earlier revision. It is a change like any other, so it can be undone too.</summary>
    /// <param name="zoneId">The zone.</param>
    /// <param name="toRevision">The revision to go back to; null for what it was when it was deleted.</param>
    /// <exception cref="InputProblem">"unknown-zone"; "unknown-revision".</exception>
    public ZoneFacts Restore(Guid zoneId, int? toRevision = null)
    {
        using var db = studio.CreateDb();
        var zone = Require(db, zoneId);
        if (toRevision is { } revision)
        {
            var then = db.ZoneChanges.AsNoTracking().FirstOrDefault(c => c.ZoneId == zoneId && c.Revision == revision)
                ?? throw new InputProblem("unknown-revision", zone.Name, $"The zone \"{zone.Name}\" has no revision {revision}.", $"Its revisions are 1 to {zone.Revision}.");
            (zone.Name, zone.Kind, zone.Geometry, zone.Note, zone.IsCandidate) = (then.Name, then.Kind, then.Geometry, then.Note, then.IsCandidate);
        }
        zone.DeletedAt = null;
        return Save(db, zone, "restored");
    }

    /// <summary>What a zone was at each revision, oldest first.</summary>
    /// <exception cref="InputProblem">"unknown-zone".</exception>
    public IReadOnlyList<ZoneChange> History(Guid zoneId)
    {
        using var db = studio.CreateDb();
        Require(db, zoneId);
        return [.. db.ZoneChanges.AsNoTracking().Where(c => c.ZoneId == zoneId).OrderBy(c => c.Revision)];
    }

    /// <exception cref="InputProblem">"unknown-zone".</exception>
    internal static Zone Require(StudioDb db, Guid zoneId) => db.Zones.Find(zoneId)
        ?? throw new InputProblem("unknown-zone", zoneId.ToString(), "There is no such zone.", "Reload the page; it may belong to another studio.");

    /// <exception cref="InputProblem">"unknown-zone"; "zone-changed".</exception>
    internal static Zone RequireAt(StudioDb db, Guid zoneId, int revision)
    {
        var zone = Require(db, zoneId);
        return zone.Revision == revision ? zone : throw Changed(zone);
    }

    private static InputProblem Changed(Zone zone, Exception? cause = null) =>
        new("zone-changed", zone.Name, $"The zone \"{zone.Name}\" was changed meanwhile.", "Look at it as it is now, then make your change again.", cause);

    private ZoneFacts Save(StudioDb db, Zone zone, Painting painting, ZoneContent content, string what)
    {
        if (string.IsNullOrWhiteSpace(content.Name)) throw new InputProblem("zone-name", "name", "The zone has no name.", "Give it one.");
        zone.Geometry = ZoneGeometry.Write(ZoneGeometry.Read(content.Geometry, painting));
        (zone.Name, zone.Kind, zone.Note, zone.IsCandidate) = (content.Name.Trim(), content.Kind.Trim(), content.Note, content.IsCandidate);
        return Save(db, zone, what);
    }

    private ZoneFacts Save(StudioDb db, Zone zone, string what)
    {
        using var held = db.HoldPainting(zone.PaintingId);
        return Store(db, zone, what, held.Commit);
    }

    /// <summary>Stores a zone as its next revision, with all else in the unit of work.</summary>
    internal ZoneFacts Store(StudioDb db, Zone zone, string what, Action commit)
    {
        zone.Revision++;
        zone.UpdatedAt = studio.Now;
        db.ZoneChanges.Add(ZoneChange.Of(zone, what));
        SearchIndex.Put(db, zone);
        try
        {
            db.SaveChanges();
            commit();
        }
        catch (DbUpdateException e) when (MovedOn(zone))
        {
            throw Changed(zone, e);
        }
        return ZoneFacts.Of(zone);
    }

    private bool MovedOn(Zone zone)
    {
        using var db = studio.CreateDb();
        return db.Zones.Any(z => z.Id == zone.Id && z.Revision >= zone.Revision);
    }
}
