using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Alignment.Pairs;

/// <summary>Lays patches over what both photographs show and looks for each.</summary>
internal sealed class PatchSurvey(PairImage reference, PlaneMap referenceMap, Box area, PairImage moving, ParallelOptions options)
{
    /// <summary>Matches, row by row, in the same order whatever the number of threads.</summary>
    public IReadOnlyList<Match> Look(PlaneMap map, PatchLevel level)
    {
        var places = Places(map, level);
        var found = new Match?[places.Count];
        var matcher = new PatchMatcher(reference, referenceMap, moving, level);
        Parallel.For(0, places.Count, options, i => found[i] = matcher.Find(map, places[i]));
        return [.. found.OfType<Match>()];
    }

    /// <summary>Area that both photographs show, target units squared.</summary>
    public double AreaOf(PlaneMap map)
    {
        var overlap = Rectangle(map);
        return overlap.Width * overlap.Height;
    }

    /// <summary>Middles of patches on a square lattice over the target that lie in both photographs.</summary>
    private List<Point2> Places(PlaneMap map, PatchLevel level)
    {
        var side = level.Side * level.Unit;
        var overlap = Rectangle(map);
        var (left, top, right, bottom) = (overlap.Left, overlap.Top, overlap.Right, overlap.Bottom);
        // Half a patch apart at most densely; farther when that would be too many.
        var step = Math.Max(side / 2, Math.Sqrt(Math.Max(0, (right - left) * (bottom - top)) / level.Most));
        var places = new List<Point2>();
        var (columns, rows) = ((int)Math.Max(0, (right - left - side) / step) + 1, (int)Math.Max(0, (bottom - top - side) / step) + 1);
        for (var j = 0; j < rows; j++)
            for (var i = 0; i < columns; i++)
            {
                Point2 place = new((left + right) / 2 + (i - (columns - 1) / 2.0) * step, (top + bottom) / 2 + (j - (rows - 1) / 2.0) * step);
                var pixel = map.ToPixel(place);
                if (pixel.X >= 0 && pixel.Y >= 0 && pixel.X < moving.File.Width && pixel.Y < moving.File.Height) places.Add(place);
            }
        return places;
    }

    /// <summary>The part of the target's area that the moving photograph's outline encloses, as a rectangle.</summary>
    public Box Rectangle(PlaneMap map) => map.Bounds(moving.File.Width, moving.File.Height).Shared(area);
}
