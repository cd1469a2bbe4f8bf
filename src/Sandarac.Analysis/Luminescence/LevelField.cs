using Sandarac.Analysis.Numbers;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Luminescence;

/// <summary>A plane's own level from place to place: medians of a few large parts, in between linear. What fills less than half of a part does not move it.</summary>
internal sealed class LevelField
{
    /// <summary>Parts along the longer side: large, so that no addition fills half of one.</summary>
    private const int Parts = 8;

    private readonly Plane _medians;
    private readonly double _across, _down;

    private LevelField(Plane medians, double across, double down) => (_medians, _across, _down) = (medians, across, down);

    /// <summary>The level of a plane; null when a part has no data.</summary>
    public static LevelField? Of(Plane plane)
    {
        var side = Math.Max(1, Math.Max(plane.Width, plane.Height) / (double)Parts);
        var medians = new Plane(Math.Max(1, (int)Math.Round(plane.Width / side)), Math.Max(1, (int)Math.Round(plane.Height / side)));
        var (across, down) = ((double)plane.Width / medians.Width, (double)plane.Height / medians.Height);
        for (var j = 0; j < medians.Height; j++)
            for (var i = 0; i < medians.Width; i++) medians[i, j] = (float)Robust.Median(Values(plane, (int)(i * across), (int)(j * down), (int)((i + 1) * across), (int)((j + 1) * down)));
        return medians.Data.Any(float.IsNaN) ? null : new LevelField(medians, across, down);
    }

    /// <summary>The level at a place, in the plane's pixels.</summary>
    public float At(double x, double y)
    {
        var (u, v) = (Math.Clamp(x / _across - 0.5, 0, _medians.Width - 1), Math.Clamp(y / _down - 0.5, 0, _medians.Height - 1));
        var (i, j) = ((int)u, (int)v);
        var (i1, j1) = (Math.Min(i + 1, _medians.Width - 1), Math.Min(j + 1, _medians.Height - 1));
        var (a, b) = ((float)(u - i), (float)(v - j));
        return (1 - b) * ((1 - a) * _medians[i, j] + a * _medians[i1, j]) + b * ((1 - a) * _medians[i, j1] + a * _medians[i1, j1]);
    }

    private static IEnumerable<double> Values(Plane plane, int left, int top, int right, int bottom)
    {
        for (var y = top; y < bottom; y++)
            for (var x = left; x < right; x++)
                if (float.IsFinite(plane[x, y])) yield return plane[x, y];
    }
}
