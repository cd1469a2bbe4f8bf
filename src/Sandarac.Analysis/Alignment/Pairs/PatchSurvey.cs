using Sandarac.Imaging.Geometry;
using Sandarac.Imaging.Warping;

namespace Sandarac.Analysis.Alignment.Pairs;

/// <summary>Lays patches over what both photographs show and looks for each. One look at a time.</summary>
internal sealed class PatchSurvey(PairImage reference, PlaneMap referenceMap, Box area, PairImage moving, ParallelOptions options)
{
    /// <summary>A larger sheet would cost more memory than it saves time.</summary>
    private const long MostSheetPixels = 4_000_000;

    /// <summary>Pixels by which the reference's sheet is larger than asked for, so that it still serves when the map has moved a little.</summary>
    private const int Slack = 24;

    private static readonly int Margin = StructureField.Margin(PatchMatcher.Taps);

    private FieldSheet? _still, _moved;

    /// <summary>Matches, row by row, in the same order whatever the number of threads.</summary>
    public IReadOnlyList<Match> Look(PlaneMap map, PatchLevel level)
    {
        var places = Places(map, level);
        var found = new Match?[places.Count];
        var matcher = Matcher(map, level, places);
        Parallel.For(0, places.Count, options, i => found[i] = matcher.Find(map, places[i]));
        return [.. found.OfType<Match>()];
    }

    /// <summary>Area that both photographs show, target units squared.</summary>
    public double AreaOf(PlaneMap map)
    {
        var overlap = Rectangle(map);
        return overlap.Width * overlap.Height;
    }

    /// <summary>The part of the target's area that the moving photograph's outline encloses, as a rectangle.</summary>
    public Box Rectangle(PlaneMap map) => map.Bounds(moving.File.Width, moving.File.Height).Shared(area);

    /// <summary>Middles of patches on a square lattice over the target that lie in both photographs; all on one grid of the level's pixels.</summary>
    private List<Point2> Places(PlaneMap map, PatchLevel level)
    {
        var side = level.Side * level.Unit;
        var overlap = Rectangle(map);
        var (left, top, right, bottom) = (overlap.Left, overlap.Top, overlap.Right, overlap.Bottom);
        // Half a patch apart at most densely; farther when that would be too many.
        var step = Math.Max(side / 2, Math.Sqrt(Math.Max(0, (right - left) * (bottom - top)) / level.Most));
        var places = new List<Point2>();
        var (columns, rows) = ((int)Math.Max(0, (right - left - side) / step) + 1, (int)Math.Max(0, (bottom - top - side) / step) + 1);
        double OnGrid(double from, double place) => from + Math.Round((place - from) / level.Unit) * level.Unit;
        for (var j = 0; j < rows; j++)
            for (var i = 0; i < columns; i++)
            {
                Point2 place = new(OnGrid(area.Left, (left + right) / 2 + (i - (columns - 1) / 2.0) * step), OnGrid(area.Top, (top + bottom) / 2 + (j - (rows - 1) / 2.0) * step));
                var pixel = map.ToPixel(place);
                if (pixel.X >= 0 && pixel.Y >= 0 && pixel.X < moving.File.Width && pixel.Y < moving.File.Height) places.Add(place);
            }
        return places;
    }

    /// <summary>From sheets where patches lie so close that these hold fewer pixels, else from a window for each patch.</summary>
    private PatchMatcher Matcher(PlaneMap map, PatchLevel level, List<Point2> places)
    {
        if (places.Count > 0)
        {
            var (still, moved) = (Sheet(level, places, level.Side / 2 + Margin), Sheet(level, places, level.Side / 2 + level.Reach + Margin));
            var (inSheet, inPatches) = ((long)moved.Width * moved.Height, (long)places.Count * (level.Side + 2 * level.Reach + 2 * Margin) * (level.Side + 2 * level.Reach + 2 * Margin));
            if (inSheet < Math.Min(inPatches, MostSheetPixels))
            {
                if (_still?.Serves(referenceMap, still) != true) _still = new FieldSheet(reference, referenceMap, Sheet(level, places, level.Side / 2 + Margin + Slack), options);
                if (_moved?.Serves(map, moved) != true) _moved = new FieldSheet(moving, map, moved, options);
                return new PatchMatcher(level, _still.Of(level.Kind), _moved.Of(level.Kind));
            }
        }
        return new PatchMatcher(level, FieldWindow.Of(reference, referenceMap, level.Unit, level.Kind), FieldWindow.Of(moving, map, level.Unit, level.Kind));
    }

    /// <summary>The level's grid over all places and so many pixels beyond.</summary>
    private static PlaneGrid Sheet(PatchLevel level, List<Point2> places, int beyond)
    {
        var reach = beyond * level.Unit;
        var (left, top) = (places.Min(p => p.X) - reach, places.Min(p => p.Y) - reach);
        return new PlaneGrid(new Box(left, top, places.Max(p => p.X) + reach - left, places.Max(p => p.Y) + reach - top), level.Unit);
    }
}
