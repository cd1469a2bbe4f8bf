using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Changes;

/// <summary>A connected place that changed.</summary>
/// <param name="Pixels">Those that changed by at least half of what its core did.</param>
/// <param name="Peak">The pixel that stands out most.</param>
internal sealed record ChangedPart(IReadOnlyList<int> Pixels, int Peak)
{
    /// <summary>Fragments nearer than twice so many pixels are one place.</summary>
    private const int Near = 2;

    /// <summary>Standard deviation of the average over which an outline is drawn, pixels.</summary>
    public const double OutlineSigma = 1.0;

    /// <summary>Finds the parts, by their first pixels.</summary>
    /// <param name="map">Where the difference stands out.</param>
    /// <param name="colour">The difference in colour, averaged for outlines.</param>
    public static IEnumerable<ChangedPart> Of(ChangeMap map, ColourDifference colour)
    {
        var (width, core) = (map.Ratio.Width, Array.ConvertAll(map.Ratio.Data, v => v > 1));
        foreach (var place in ConnectedParts.Of(Widened(core, width), width))
        {
            int[] own = [.. place.Where(i => core[i])];
            yield return new ChangedPart(Outlined(own, place, colour, width), own.MaxBy(i => map.Ratio.Data[i]));
        }
    }

    /// <summary>The pixels whose colour moved the core's way by half as much or more: what averaging spread is taken back.</summary>
    private static IReadOnlyList<int> Outlined(int[] core, IReadOnlyList<int> place, ColourDifference colour, int width)
    {
        var strongest = core.MaxBy(colour.At);
        double[] way = [.. colour.Bands.Select(b => b.Data[strongest] / Math.Max(colour.At(strongest), 1e-9))];
        double Moved(int i) => colour.Bands.Select((b, k) => way[k] * b.Data[i]).Sum();
        var half = Moved(strongest) / 2;
        int[] moved = [.. place.Where(i => Moved(i) >= half)];
        var (left, top) = (moved.Min(i => i % width), moved.Min(i => i / width));
        var (across, down) = (moved.Max(i => i % width) - left + 1, moved.Max(i => i / width) - top + 1);
        var box = new bool[across * down];
        foreach (var i in moved) box[(i / width - top) * across + i % width - left] = true;
        return [.. ConnectedParts.Of(box, across).MaxBy(p => p.Count)!.Select(i => (i / across + top) * width + i % across + left)];
    }

    private static bool[] Widened(bool[] mask, int width)
    {
        var (wide, height) = (new bool[mask.Length], mask.Length / width);
        for (var i = 0; i < mask.Length; i++)
        {
            if (!mask[i]) continue;
            var (x, y) = (i % width, i / width);
            for (var v = Math.Max(0, y - Near); v <= Math.Min(height - 1, y + Near); v++)
                for (var u = Math.Max(0, x - Near); u <= Math.Min(width - 1, x + Near); u++) wide[v * width + u] = true;
        }
        return wide;
    }
}
