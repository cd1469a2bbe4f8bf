using NetTopologySuite.Algorithm.Locate;
using NetTopologySuite.Geometries;

namespace Sandarac.Analysis.Teaching;

/// <summary>Takes the marked pixels as samples.</summary>
internal static class MarkedPixels
{
    /// <summary>Neighbouring pixels say nearly the same: of a larger mark so many are used, evenly spread.</summary>
    public const int MostOfMark = 200;

    private const int Tile = 256;

    /// <summary>Samples of the marks that lie on the image, mark by mark, row by row; pixels without data, and pixels in marks of two classes, are left out.</summary>
    /// <param name="features">Features of the layers.</param>
    /// <param name="areas">The marks as areas, in pixels.</param>
    /// <param name="marks">The marks.</param>
    /// <param name="threads">How many at once, and whether still.</param>
    public static Samples Of(FeatureSet features, IReadOnlyList<Geometry> areas, Marks marks, ParallelOptions threads)
    {
        var places = areas.Select((area, m) => Inside(area, features.Layers).Select(p => (Mark: m, p.X, p.Y))).SelectMany(p => p).ToList();
        var claimed = places.GroupBy(p => (p.X, p.Y)).Where(g => g.Select(p => marks.All[p.Mark].Class).Distinct().Count() > 1).Select(g => g.Key).ToHashSet();
        var used = places.Where(p => !claimed.Contains((p.X, p.Y))).GroupBy(p => p.Mark).SelectMany(g => Spread([.. g])).ToList();
        var tiles = used.GroupBy(p => (p.X / Tile, p.Y / Tile)).ToArray();
        var found = new (int Mark, int X, int Y, float[] Features)[tiles.Length][];
        Parallel.For(0, tiles.Length, threads, t => found[t] = [.. Taken(features, [.. tiles[t]])]);
        var rows = found.SelectMany(f => f).OrderBy(s => s.Mark).ThenBy(s => s.Y).ThenBy(s => s.X).ToArray();
        return new Samples([.. Enumerable.Range(0, features.Count).Select(f => rows.Select(r => r.Features[f]).ToArray())],
            [.. rows.Select(r => marks.All[r.Mark].Class)], [.. rows.Select(r => r.Mark)]);
    }

    private static IEnumerable<(int Mark, int X, int Y, float[] Features)> Taken(FeatureSet features, (int Mark, int X, int Y)[] places)
    {
        var (left, top) = (places.Min(p => p.X), places.Min(p => p.Y));
        var tile = features.Of(left, top, places.Max(p => p.X) - left + 1, places.Max(p => p.Y) - top + 1);
        foreach (var (mark, x, y) in places)
        {
            if (!tile.HasData(x, y)) continue;
            var values = new float[features.Count];
            tile.Fill(x, y, 1, values, 1);
            yield return (mark, x, y, values);
        }
    }

    /// <summary>Pixels whose middle lies in an area.</summary>
    private static IEnumerable<(int X, int Y)> Inside(Geometry area, TaughtLayers layers)
    {
        var (box, locator) = (area.EnvelopeInternal, new IndexedPointInAreaLocator(area));
        for (var y = Math.Max(0, (int)Math.Floor(box.MinY)); y < Math.Min(layers.Height, box.MaxY); y++)
            for (var x = Math.Max(0, (int)Math.Floor(box.MinX)); x < Math.Min(layers.Width, box.MaxX); x++)
                if (locator.Locate(new Coordinate(x + 0.5, y + 0.5)) == Location.Interior) yield return (x, y);
    }

    private static IEnumerable<T> Spread<T>(T[] places)
    {
        var count = Math.Min(places.Length, MostOfMark);
        return Enumerable.Range(0, count).Select(i => places[(long)i * places.Length / count]);
    }
}
