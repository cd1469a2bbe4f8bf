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
    public Plane Source(Plane right, Plane down, float pixel) => Sum(new MeanSlope(right.Data, down.Data, pixel / 2));

    /// <summary>The normal equations' left side for a height.</summary>
    public Plane Apply(Plane heights) => Sum(new Rise(heights.Data));

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
    private Plane Sum<T>(T difference) where T : struct, IDifference
    {
        var result = new Plane(width, height);
        Parallel.For(0, height, parallel, y =>
        {
            var row = result.Row(y);
            for (int x = 0, i = y * width; x < width; x++, i++)
            {
                if (x > 0) row[x] += Join(difference, i - 1, i, true);
                if (x < width - 1) row[x] -= Join(difference, i, i + 1, true);
                if (y > 0) row[x] += Join(difference, i - width, i, false);
                if (y < height - 1) row[x] -= Join(difference, i, i + width, false);
            }
        });
        return result;
    }

    private float Join<T>(T difference, int from, int to, bool across) where T : struct, IDifference
    {
        if (weight is null) return difference.Along(from, to, across);
        var w = Math.Min(weight.Data[from], weight.Data[to]);
        return w > 0 ? w * difference.Along(from, to, across) : 0;
    }

    /// <summary>What is summed; structs, so that the inner loop calls nothing.</summary>
    private interface IDifference
    {
        /// <summary>The difference along a join, from a pixel to the next one right of it or below.</summary>
        float Along(int from, int to, bool across);
    }

    private readonly struct MeanSlope(float[] right, float[] down, float half) : IDifference
    {
        public float Along(int from, int to, bool across) => across ? half * (right[from] + right[to]) : half * (down[from] + down[to]);
    }

    private readonly struct Rise(float[] heights) : IDifference
    {
        public float Along(int from, int to, bool across) => heights[to] - heights[from];
    }
}
