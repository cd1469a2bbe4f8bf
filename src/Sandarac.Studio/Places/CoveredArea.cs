using NetTopologySuite.Geometries;
using NetTopologySuite.Geometries.Utilities;
using NetTopologySuite.Operation.OverlayNG;

namespace Sandarac.Studio.Places;

/// <summary>What several zones cover together: a place that more than one of them covers counts once.</summary>
internal static class CoveredArea
{
    /// <summary>The polygons of some geometries as one; empty when there is none. Outlines from before they were checked are mended first.</summary>
    public static Geometry Of(IEnumerable<Geometry> geometries)
    {
        List<Geometry> areas = [.. geometries.SelectMany(Parts).OfType<Polygon>().Select(p => p.IsValid ? p : GeometryFixer.Fix(p))];
        return areas.Count == 0 ? GeometryFactory.Default.CreatePolygon() : OverlayNGRobust.Union(areas);
    }

    /// <summary>Points, lines and polygons of a geometry.</summary>
    public static IEnumerable<Geometry> Parts(Geometry geometry) => Enumerable.Range(0, geometry.NumGeometries).Select(geometry.GetGeometryN).Where(g => !g.IsEmpty);
}
