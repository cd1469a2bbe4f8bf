using NetTopologySuite.Geometries;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Places;

/// <summary>How large a zone is, how surely, and how much of the painted face it is.</summary>
/// <param name="AreaMm2">Area within the painted face, mm2.</param>
/// <param name="AreaUncertaintyMm2">Half-width of the 95 % interval, mm2; null when no photograph that was matched touches the zone.</param>
/// <param name="FaceShare">Share of the painted face, 0 to 1; as uncertain, in proportion, as the boundary lets the area be.</param>
/// <param name="FaceShareUncertainty">Half-width of its 95 % interval; the scale cancels in it. Null as above.</param>
/// <param name="BoundaryMm">How far the outline may be off, mm; null as above.</param>
/// <param name="Note">What the uncertainty is made of, or why there is none.</param>
public sealed record ZoneExtent(double AreaMm2, double? AreaUncertaintyMm2, double FaceShare, double? FaceShareUncertainty, double? BoundaryMm, string Note);

/// <summary>Another zone over the same place.</summary>
/// <param name="Zone">It.</param>
/// <param name="AreaMm2">Area that both have, mm2.</param>
/// <param name="Share">Share of the zone asked about that it covers, 0 to 1.</param>
public sealed record ZoneOverlap(ZoneFacts Zone, double AreaMm2, double Share);

/// <summary>Measures zones.</summary>
internal static class ZoneExtents
{
    /// <summary>
    /// Area with its uncertainty: the whole outline may lie off by what the least well aligned photograph that touches the zone leaves (95 of 100 places) and by half a pixel of the plane, all to
    /// the same side, which is the worst; and the painting's size may be off.
    /// </summary>
    public static ZoneExtent Of(Geometry zone, Painting painting, IEnumerable<Alignment> alignments)
    {
        var face = zone.Factory.ToGeometry(new Envelope(0, painting.WidthMm, 0, painting.HeightMm));
        var inside = zone is IPolygonal ? zone.Intersection(face) : zone.Factory.CreatePolygon();
        var (area, share) = (inside.Area, inside.Area / face.Area);
        double[] residuals = [.. alignments.Where(a => a.PlaneExtent is { } e && zone.EnvelopeInternal.Intersects(new Envelope(e.Left, e.Right, e.Top, e.Bottom))).Select(a => a.Residuals?.P95Mm).OfType<double>()];
        if (residuals.Length == 0) return new ZoneExtent(area, null, share, null, null, "No photograph here has an alignment whose residuals are known.");
        var boundary = Math.Sqrt(residuals.Max() * residuals.Max() + painting.PlaneMmPerPixel * painting.PlaneMmPerPixel / 4);
        var (outline, size) = (inside.Length * boundary, 2 * area * (painting.SizeUncertainty ?? 0));
        return new ZoneExtent(area, Math.Sqrt(outline * outline + size * size), share, outline / face.Area, boundary,
            "The outline may be off by the alignment's residual and half a pixel, all to one side" + (painting.SizeUncertainty is null ? "; the painting's size is taken as stated." : "; and the painting's size by its uncertainty."));
    }

    /// <summary>The zones that cover part of one, the largest part first.</summary>
    public static IReadOnlyList<ZoneOverlap> Overlaps(ZoneFacts zone, IEnumerable<ZoneFacts> others)
    {
        var geometry = ZoneGeometry.Read(zone.Geometry);
        return [.. others.Where(o => o.Id != zone.Id).Select(o => (Zone: o, Geometry: ZoneGeometry.Read(o.Geometry)))
            .Where(o => o.Geometry.EnvelopeInternal.Intersects(geometry.EnvelopeInternal) && o.Geometry.Intersects(geometry))
            .Select(o => (o.Zone, Area: geometry is IPolygonal && o.Geometry is IPolygonal ? o.Geometry.Intersection(geometry).Area : 0))
            .OrderByDescending(o => o.Area).Select(o => new ZoneOverlap(o.Zone, o.Area, geometry.Area > 0 ? o.Area / geometry.Area : 0))];
    }
}
