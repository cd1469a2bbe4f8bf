using Sandarac.Imaging;

namespace Sandarac.Analysis.Brushwork;

/// <summary>Means along the brush's pull: evens out what changes within a stroke, keeps what changes from one stroke to the next (line integral convolution: Cabral and Leedom, SIGGRAPH 1993, 263, from memory).</summary>
/// <param name="field">Directions.</param>
/// <param name="reach">How far each way, pixels.</param>
internal sealed class AlongSmoothing(DirectionField field, int reach)
{
    /// <summary>Smooths planes of the field's size; NaN where a pixel has no direction or no data.</summary>
    public IReadOnlyList<Plane> Of(IReadOnlyList<Plane> planes, ParallelOptions threads)
    {
        Plane[] results = [.. planes.Select(p => new Plane(p.Width, p.Height))];
        Parallel.For(0, field.Angle.Height, threads, y =>
        {
            Span<double> sums = stackalloc double[planes.Count];
            for (var x = 0; x < field.Angle.Width; x++)
            {
                sums.Clear();
                var count = Walk(planes, x, y, 1, sums) + Walk(planes, x, y, -1, sums);
                for (var b = 0; b < results.Length; b++) results[b][x, y] = float.IsNaN(planes[b][x, y]) || count == 0 ? float.NaN : (float)(sums[b] / count);
            }
        });
        return results;
    }

    /// <summary>Adds what lies one way, half of the pixel itself included; steps so many.</summary>
    private double Walk(IReadOnlyList<Plane> planes, int x, int y, int way, Span<double> sums)
    {
        var angle = field.Angle[x, y];
        if (float.IsNaN(angle)) return 0;
        var (dx, dy) = (way * MathF.Cos(angle), way * MathF.Sin(angle));
        float px = x, py = y;
        for (var b = 0; b < sums.Length; b++) sums[b] += 0.5 * planes[b][x, y];
        var count = 0.5;
        for (var k = 0; k < reach; k++)
        {
            (px, py) = (px + dx, py + dy);
            var (i, j) = ((int)MathF.Round(px), (int)MathF.Round(py));
            if (i < 0 || j < 0 || i >= field.Angle.Width || j >= field.Angle.Height || float.IsNaN(angle = field.Angle[i, j]) || !HasData(planes, i, j)) break;
            for (var b = 0; b < sums.Length; b++) sums[b] += planes[b][i, j];
            count++;
            // The direction has no arrow: it goes on the way it came.
            var (nx, ny) = (MathF.Cos(angle), MathF.Sin(angle));
            (dx, dy) = nx * dx + ny * dy >= 0 ? (nx, ny) : (-nx, -ny);
        }
        return count;
    }

    private static bool HasData(IReadOnlyList<Plane> planes, int x, int y)
    {
        foreach (var plane in planes)
            if (float.IsNaN(plane[x, y])) return false;
        return true;
    }
}
