using Sandarac.Studio.Record;

namespace Sandarac.Studio;

/// <summary>A zone as others see it.</summary>
/// <param name="Id">Its key.</param>
/// <param name="PaintingId">The painting.</param>
/// <param name="Name">What a person calls it.</param>
/// <param name="Kind">What kind of phenomenon; may be empty.</param>
/// <param name="Note">What a person wrote.</param>
/// <param name="Geometry">GeoJSON geometry, mm on the plane, y down.</param>
/// <param name="Revision">Name it when changing the zone.</param>
/// <param name="IsCandidate">Whether it is only proposed.</param>
/// <param name="Confidence">How sure the reading is, 0 to 1.</param>
/// <param name="Reason">Why the reading proposes it.</param>
/// <param name="RunId">The run that proposed it.</param>
/// <param name="AreaMm2">Area; 0 for lines and points.</param>
/// <param name="LengthMm">Length of a line, perimeter of a polygon; 0 for points.</param>
/// <param name="IsDeleted">Whether it was deleted; it can be restored.</param>
public sealed record ZoneFacts(Guid Id, Guid PaintingId, string Name, string Kind, string Note, string Geometry, int Revision, bool IsCandidate,
    double? Confidence, string? Reason, Guid? RunId, double AreaMm2, double LengthMm, bool IsDeleted)
{
    internal static ZoneFacts Of(Zone zone)
    {
        var geometry = ZoneGeometry.Read(zone.Geometry);
        return new ZoneFacts(zone.Id, zone.PaintingId, zone.Name, zone.Kind, zone.Note, zone.Geometry, zone.Revision, zone.IsCandidate, zone.Confidence,
            zone.Reason, zone.RunId, geometry.Area, geometry.Length, zone.DeletedAt is not null);
    }
}

/// <summary>What a person says of a zone.</summary>
/// <param name="Name">What it is called.</param>
/// <param name="Kind">What kind of phenomenon; may be empty.</param>
/// <param name="Note">Free words.</param>
/// <param name="Geometry">GeoJSON Point, LineString or Polygon (or a Multi of these), mm on the plane, y down.</param>
/// <param name="IsCandidate">False makes a candidate a zone.</param>
public sealed record ZoneContent(string Name, string Kind, string Note, string Geometry, bool IsCandidate = false);
