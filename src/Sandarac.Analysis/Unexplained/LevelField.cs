using Sandarac.Analysis.Numbers;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Unexplained;

/// <summary>A plane's own level from place to place: medians of a few large parts, in between linear. What fills less than half of a part does not move it.</summary>
internal static class LevelField
{
    /// <summary>The level of a plane; null when a part has no data.</summary>
    /// <param name="plane">The plane.</param>
    /// <param name="parts">Parts along the longer side: so few that nothing that is looked for fills half of one.</param>
    public static CellField? Of(Plane plane, int parts)
    {
        var side = Math.Max(1, Math.Max(plane.Width, plane.Height) / (double)parts);
        var medians = new Plane(Math.Max(1, (int)Math.Round(plane.Width / side)), Math.Max(1, (int)Math.Round(plane.Height / side)));
        var (across, down) = ((double)plane.Width / medians.Width, (double)plane.Height / medians.Height);
        for (var j = 0; j < medians.Height; j++)
            for (var i = 0; i < medians.Width; i++) medians[i, j] = (float)Robust.Median(Values(plane, (int)(i * across), (int)(j * down), (int)((i + 1) * across), (int)((j + 1) * down)));
        return medians.Data.Any(float.IsNaN) ? null : new CellField(medians, across, down);
    }

    private static IEnumerable<double> Values(Plane plane, int left, int top, int right, int bottom)
    {
        for (var y = top; y < bottom; y++)
            for (var x = left; x < right; x++)
                if (float.IsFinite(plane[x, y])) yield return plane[x, y];
    }
}
