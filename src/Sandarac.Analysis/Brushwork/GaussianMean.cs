using System.Numerics.Tensors;
using Sandarac.Analysis.Alignment.Pairs;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Brushwork;

/// <summary>Means weighted by a Gaussian, of the pixels that have data (normalised convolution: Knutsson and Westin, IEEE CVPR 1993, 515, from memory).</summary>
internal static class GaussianMean
{
    /// <summary>The mean about each pixel; NaN where less than half of the weight has data.</summary>
    /// <param name="plane">Values; NaN is no data.</param>
    /// <param name="sigma">Standard deviation, pixels, above 0; cut off at three.</param>
    /// <param name="threads">How many rows at once.</param>
    public static Plane Of(Plane plane, double sigma, ParallelOptions threads) => Of([plane], sigma, threads)[0];

    /// <summary>The same of planes that have data in the same places.</summary>
    public static Plane[] Of(IReadOnlyList<Plane> planes, double sigma, ParallelOptions threads)
    {
        var taps = GaussianTaps.Of(sigma).Smooth;
        var there = Smoothed(planes[0].Select(v => float.IsFinite(v) ? 1 : 0), taps, threads);
        Plane[] means = [.. planes.Select(p => Smoothed(p.Select(v => float.IsFinite(v) ? v : 0), taps, threads))];
        for (var i = 0; i < there.Data.Length; i++)
        {
            var isKnown = there.Data[i] >= 0.5f * Inside(i, there, taps);
            foreach (var mean in means) mean.Data[i] = isKnown ? mean.Data[i] / there.Data[i] : float.NaN;
        }
        return means;
    }

    /// <summary>Share of the weight that lies on the plane: at its border there is no more to be had.</summary>
    private static float Inside(int pixel, Plane plane, float[] taps)
    {
        var (x, y, radius) = (pixel % plane.Width, pixel / plane.Width, taps.Length / 2);
        bool Whole(int at, int count) => at >= radius && at + radius < count;
        return Whole(x, plane.Width) && Whole(y, plane.Height) ? 1 : Part(x, plane.Width, taps) * Part(y, plane.Height, taps);
    }

    private static float Part(int at, int count, float[] taps)
    {
        var radius = taps.Length / 2;
        var (first, last) = (Math.Max(0, radius - at), Math.Min(taps.Length, radius + count - at));
        return TensorPrimitives.Sum(taps.AsSpan(first, last - first));
    }

    private static Plane Smoothed(Plane plane, float[] taps, ParallelOptions threads)
    {
        var (radius, across, down) = (taps.Length / 2, new Plane(plane.Width, plane.Height), new Plane(plane.Width, plane.Height));
        Parallel.For(0, plane.Height, threads, y =>
        {
            for (var k = -radius; k <= radius; k++)
            {
                var (from, count) = (Math.Max(0, k), plane.Width - Math.Abs(k));
                if (count <= 0) continue;
                var to = across.Row(y).Slice(from - k, count);
                TensorPrimitives.MultiplyAdd(plane.Row(y).Slice(from, count), taps[k + radius], to, to);
            }
        });
        Parallel.For(0, plane.Height, threads, y =>
        {
            for (var k = Math.Max(-radius, -y); k <= Math.Min(radius, plane.Height - 1 - y); k++)
                TensorPrimitives.MultiplyAdd(across.Row(y + k), taps[k + radius], down.Row(y), down.Row(y));
        });
        return down;
    }
}
