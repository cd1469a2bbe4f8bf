using NetTopologySuite.Algorithm.Locate;
using NetTopologySuite.Geometries;
using NetTopologySuite.Index.Strtree;

namespace Sandarac.Studio.Plans.Drawing;

/// <summary>Cuts lines at the border of an area. A border of any length costs each line only what lies near it.</summary>
internal sealed class AreaClip
{
    private readonly STRtree<(Coordinate From, Coordinate To)> _edges = new();
    private readonly IndexedPointInAreaLocator _inside;

    /// <param name="area">A valid polygon.</param>
    public AreaClip(Polygon area)
    {
        _inside = new IndexedPointInAreaLocator(area);
        foreach (var ring in area.InteriorRings.Prepend(area.ExteriorRing))
            for (var i = 0; i + 1 < ring.NumPoints; i++) _edges.Insert(new Envelope(ring.GetCoordinateN(i), ring.GetCoordinateN(i + 1)), (ring.GetCoordinateN(i), ring.GetCoordinateN(i + 1)));
    }

    /// <summary>The parts of a line within the area.</summary>
    public IEnumerable<IReadOnlyList<Coordinate>> Inside(Coordinate[] line)
    {
        List<Coordinate>? part = null;
        for (var i = 0; i + 1 < line.Length; i++)
        {
            var (from, to) = (line[i], line[i + 1]);
            var cuts = Cuts(from, to);
            for (var k = 0; k + 1 < cuts.Count; k++)
            {
                if (_inside.Locate(At(from, to, (cuts[k] + cuts[k + 1]) / 2)) == Location.Interior)
                {
                    part ??= [At(from, to, cuts[k])];
                    part.Add(At(from, to, cuts[k + 1]));
                }
                else if (part is not null)
                {
                    yield return part;
                    part = null;
                }
            }
        }
        if (part is not null) yield return part;
    }

    /// <summary>Where a segment meets the border, as shares of its length in order, both ends among them.</summary>
    private List<double> Cuts(Coordinate from, Coordinate to)
    {
        List<double> cuts = [0, 1];
        var (dx, dy) = (to.X - from.X, to.Y - from.Y);
        foreach (var (a, b) in _edges.Query(new Envelope(from, to)))
        {
            var (ex, ey) = (b.X - a.X, b.Y - a.Y);
            var cross = dx * ey - dy * ex;
            // What runs along the border lies on neither side of it.
            if (cross == 0) continue;
            var (t, u) = (((a.X - from.X) * ey - (a.Y - from.Y) * ex) / cross, ((a.X - from.X) * dy - (a.Y - from.Y) * dx) / cross);
            if (t is > 0 and < 1 && u is >= 0 and <= 1) cuts.Add(t);
        }
        cuts.Sort();
        return cuts;
    }

    private static Coordinate At(Coordinate from, Coordinate to, double t) => t == 0 ? from : t == 1 ? to : new Coordinate(from.X + t * (to.X - from.X), from.Y + t * (to.Y - from.Y));
}
