using Sandarac.Imaging;

namespace Sandarac.Analysis.Relief;

/// <summary>Pixels joined to their four neighbours, each join as heavy as the lighter of its ends: the weighted normal equations of integration.</summary>
/// <param name="weight">Weight of each pixel, 0 for one that is not known; null for all alike.</param>
/// <param name="width">Columns.</param>
/// <param name="height">Rows.</param>
/// <param name="parallel">Threads; sums are made row by row and then in order, so that their number changes nothing.</param>
internal sealed class SlopeGraph(Plane? weight, int width, int height, ParallelOptions parallel)
{
    /// <summary>Right side of the normal equations: what flows into each pixel by the slopes of its joins.</summary>
    public Plane Source(Plane right, Plane down, float pixel) => Sum((i, j, isRow) =>
    {
        var slopes = isRow ? right.Data : down.Data;
        return pixel / 2 * (slopes[i] + slopes[j]);
    });

    /// <summary>The normal equations' left side for a height.</summary>
    public Plane Apply(Plane heights)
    {
        var data = heights.Data;
        return Sum((i, j, _) => data[j] - data[i]);
    }

    public double Dot(Plane a, Plane b)
    {
        var rows = new double[height];
        Parallel.For(0, height, parallel, y =>
        {
            var p = a.Row(y);
            var q = b.Row(y);
            var sum = 0.0;
            for (var x = 0; x < p.Length; x++) sum += (double)p[x] * q[x];
            rows[y] = sum;
        });
        return rows.Sum();
    }

    /// <summary>a + factor b, into a plane that may be one of the two.</summary>
    public void AddScaled(Plane a, Plane b, double factor, Plane into) =>
        Parallel.For(0, height, parallel, y => System.Numerics.Tensors.TensorPrimitives.MultiplyAdd<float>(b.Row(y), (float)factor, a.Row(y), into.Row(y)));

    /// <summary>For each pixel the weighted differences of its joins, those that come in less those that go out.</summary>
    /// <param name="difference">From a pixel, the next one right of it or below, and whether it is right of it, to the difference along the join.</param>
    private Plane Sum(Func<int, int, bool, float> difference)
    {
        var result = new Plane(width, height);
        Parallel.For(0, height, parallel, y =>
        {
            for (var x = 0; x < width; x++)
            {
                var i = y * width + x;
                var sum = 0f;
                if (x > 0) sum += Join(i - 1, i, true);
                if (x < width - 1) sum -= Join(i, i + 1, true);
                if (y > 0) sum += Join(i - width, i, false);
                if (y < height - 1) sum -= Join(i, i + width, false);
                result.Data[i] = sum;
            }
        });
        return result;

        float Join(int i, int j, bool isRow)
        {
            if (weight is null) return difference(i, j, isRow);
            var w = Math.Min(weight.Data[i], weight.Data[j]);
            return w > 0 ? w * difference(i, j, isRow) : 0;
        }
    }
}
