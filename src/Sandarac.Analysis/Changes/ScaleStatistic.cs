using System.Numerics.Tensors;
using Sandarac.Analysis.Brushwork;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Changes;

/// <summary>The difference averaged over so many pixels, in units of its own spread: the root of the sum of squares over bands.</summary>
/// <param name="Sigma">Standard deviation of the average's weights, pixels.</param>
/// <param name="Values">The statistic; NaN where there is none.</param>
/// <param name="Spread">Spread of the averaged difference in calm paint, in units of a pixel's noise.</param>
internal sealed record ScaleStatistic(double Sigma, Plane Values, double Spread)
{
    /// <summary>Where the statistic is high all about, as on paint in relief under lamps that moved, it is divided by its local level; a place counts at most so much in that level,
    /// so that a change does not hide itself.</summary>
    private const double MostInLevel = 6, LevelReach = 5;

    /// <summary>Computes.</summary>
    public static ScaleStatistic Of(DifferenceNoise noise, Plane[] baseline, double sigma, ParallelOptions threads)
    {
        var (averaged, contrast) = (GaussianMean.Of(noise.Whitened, sigma, threads), Contrast(noise, baseline, sigma, threads));
        var (squares, calm) = (new Plane(contrast.Width, contrast.Height), 0.0);
        foreach (var band in averaged)
        {
            var median = (float)Numbers.Robust.Median(band.Data.Where((v, i) => i % 5 == 0 && float.IsFinite(v)).Select(v => (double)v));
            for (var i = 0; i < band.Data.Length; i++) band.Data[i] -= median;
            var spread = SpreadByContrast.Of(contrast, band);
            calm += spread.Calm / averaged.Length;
            Parallel.For(0, band.Height, threads, y =>
            {
                for (var i = y * band.Width; i < (y + 1) * band.Width; i++) squares.Data[i] += (float)Math.Pow(band.Data[i] / spread.At(contrast.Data[i]), 2);
            });
        }
        var level = GaussianMean.Of(squares.Select(v => Math.Min(v, (float)(MostInLevel * MostInLevel)) / averaged.Length), LevelReach * sigma, threads);
        for (var i = 0; i < squares.Data.Length; i++) squares.Data[i] = MathF.Sqrt(squares.Data[i] / Math.Max(1, level.Data[i]));
        return new ScaleStatistic(sigma, squares, calm);
    }

    /// <summary>Its local maxima, the least first: of places nearer than two standard deviations only the highest, so that what averaging ties together counts once.</summary>
    public double[] Peaks()
    {
        var reach = (int)(2 * Sigma) + 1;
        var around = Highest(Values, reach);
        double[] peaks = [.. Values.Data.Where((v, i) => float.IsFinite(v) && v == around.Data[i]).Select(v => (double)v)];
        Array.Sort(peaks);
        return peaks;
    }

    /// <summary>Root mean square of the picture's detail about each pixel, at this scale, in units of the sensors' noise.</summary>
    private static Plane Contrast(DifferenceNoise noise, Plane[] baseline, double sigma, ParallelOptions threads)
    {
        var (wide, sum) = (GaussianMean.Of(baseline, 3 * sigma, threads), new Plane(baseline[0].Width, baseline[0].Height));
        for (var b = 0; b < baseline.Length; b++)
            for (var i = 0; i < sum.Data.Length; i++)
            {
                var detail = baseline[b].Data[i] - wide[b].Data[i];
                sum.Data[i] += (float)(detail * detail / noise.Variance(b, i));
            }
        return GaussianMean.Of(sum, 2 * sigma, threads).Select(MathF.Sqrt);
    }

    private static Plane Highest(Plane plane, int reach)
    {
        var (filled, across, both) = (plane.Select(v => float.IsFinite(v) ? v : -1), new Plane(plane.Width, plane.Height), new Plane(plane.Width, plane.Height));
        for (var y = 0; y < plane.Height; y++)
            for (var k = -reach; k <= reach; k++)
            {
                var (from, count) = (Math.Max(0, k), plane.Width - Math.Abs(k));
                if (count <= 0) continue;
                var to = across.Row(y).Slice(from - k, count);
                TensorPrimitives.Max(to, filled.Row(y).Slice(from, count), to);
            }
        for (var y = 0; y < plane.Height; y++)
            for (var k = Math.Max(-reach, -y); k <= Math.Min(reach, plane.Height - 1 - y); k++) TensorPrimitives.Max(both.Row(y), across.Row(y + k), both.Row(y));
        return both;
    }
}
