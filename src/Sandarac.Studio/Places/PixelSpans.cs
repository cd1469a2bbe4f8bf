using NetTopologySuite.Geometries;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Studio.Places;

/// <summary>Which pixels of an image a geometry on the plane covers, row by row.</summary>
internal static class PixelSpans
{
    /// <summary>Longest piece of an outline that is carried to pixels as a straight line, mm: lenses bend long lines.</summary>
    private const double PieceMm = 2;

    /// <summary>Spans of a row's pixels, from column X0 up to but not including X1, sorted, without overlaps.</summary>
    public static IReadOnlyList<(int Y, int X0, int X1)> Of(Geometry geometry, Func<Point2, Point2> toPixel, int width, int height)
    {
        HashSet<(int X, int Y)> touched = [];
        List<(int, int, int)> spans = [];
        for (var i = 0; i < geometry.NumGeometries; i++)
        {
            var part = geometry.GetGeometryN(i);
            if (part is Polygon polygon) spans.AddRange(Inside(polygon, toPixel, width, height));
            else if (part is LineString line) Touched(Outline(line, toPixel), touched);
            else if (part is Point point) Touched([toPixel(new Point2(point.X, point.Y))], touched);
        }
        spans.AddRange(touched.Where(p => p.X >= 0 && p.Y >= 0 && p.X < width && p.Y < height).Select(p => (p.Y, p.X, p.X + 1)));
        return Merge(spans);
    }

    /// <summary>Pixels whose centres lie inside: crossings of each row's centre line with the rings, taken in pairs.</summary>
    private static IEnumerable<(int, int, int)> Inside(Polygon polygon, Func<Point2, Point2> toPixel, int width, int height)
    {
        var rings = new[] { polygon.ExteriorRing }.Concat(polygon.InteriorRings).Select(r => Outline(r, toPixel)).ToList();
        var top = Math.Max(0, (int)Math.Floor(rings[0].Min(p => p.Y) - 0.5));
        var bottom = Math.Min(height - 1, (int)Math.Ceiling(rings[0].Max(p => p.Y)));
        var crossings = new List<double>[Math.Max(0, bottom - top + 1)];
        foreach (var ring in rings)
            for (var i = 0; i + 1 < ring.Count; i++) Cross(ring[i], ring[i + 1], top, crossings);
        for (var row = 0; row < crossings.Length; row++)
        {
            if (crossings[row] is not { } at) continue;
            at.Sort();
            for (var i = 0; i + 1 < at.Count; i += 2)
            {
                var (x0, x1) = (Math.Max(0, (int)Math.Ceiling(at[i] - 0.5)), Math.Min(width, (int)Math.Ceiling(at[i + 1] - 0.5)));
                if (x1 > x0) yield return (top + row, x0, x1);
            }
        }
    }

    private static void Cross(Point2 a, Point2 b, int top, List<double>[] crossings)
    {
        if (a.Y == b.Y) return;
        if (a.Y > b.Y) (a, b) = (b, a);
        var first = Math.Max(0, (int)Math.Ceiling(a.Y - 0.5) - top);
        for (var row = first; row < crossings.Length && top + row + 0.5 < b.Y; row++)
            (crossings[row] ??= []).Add(a.X + (top + row + 0.5 - a.Y) / (b.Y - a.Y) * (b.X - a.X));
    }

    private static List<Point2> Outline(LineString line, Func<Point2, Point2> toPixel)
    {
        List<Point2> points = [];
        for (var i = 0; i + 1 < line.NumPoints; i++)
        {
            var (a, b) = (line.GetCoordinateN(i), line.GetCoordinateN(i + 1));
            var pieces = Math.Clamp((int)Math.Ceiling(a.Distance(b) / PieceMm), 1, 10_000);
            for (var k = 0; k < pieces; k++) points.Add(toPixel(new Point2(a.X + (b.X - a.X) * k / pieces, a.Y + (b.Y - a.Y) * k / pieces)));
        }
        var last = line.GetCoordinateN(line.NumPoints - 1);
        points.Add(toPixel(new Point2(last.X, last.Y)));
        return points;
    }

    /// <summary>Pixels that a line passes, found by steps of a quarter of a pixel.</summary>
    private static void Touched(List<Point2> line, HashSet<(int, int)> touched)
    {
        for (var i = 0; i < line.Count; i++)
        {
            var (a, b) = (line[Math.Max(0, i - 1)], line[i]);
            var steps = Math.Max(1, (int)Math.Ceiling(4 * a.DistanceTo(b)));
            for (var k = 0; k <= steps; k++)
                touched.Add(((int)Math.Floor(a.X + (b.X - a.X) * k / steps), (int)Math.Floor(a.Y + (b.Y - a.Y) * k / steps)));
        }
    }

    private static List<(int Y, int X0, int X1)> Merge(List<(int Y, int X0, int X1)> spans)
    {
        List<(int Y, int X0, int X1)> merged = [];
        foreach (var span in spans.Order())
        {
            if (merged.Count > 0 && merged[^1] is var last && last.Y == span.Y && span.X0 <= last.X1) merged[^1] = (last.Y, last.X0, Math.Max(last.X1, span.X1));
            else merged.Add(span);
        }
        return merged;
    }
}
