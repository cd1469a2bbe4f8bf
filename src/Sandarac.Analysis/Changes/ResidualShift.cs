using Sandarac.Analysis.Brushwork;
using Sandarac.Analysis.Unexplained;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Changes;

/// <summary>
/// The small shifts that registration left, place by place: the displacement that best explains the difference by the baseline's gradients (Lucas and Kanade, IJCAI 1981, 674),
/// from sums over neighbouring cells, so that calm places take it from their surroundings. Corrected by cubic convolution.
/// </summary>
/// <param name="Across">Shift to the right, pixels, a value a cell.</param>
/// <param name="Down">Shift downwards.</param>
/// <param name="Last">Root mean square of what the last round still found, pixels.</param>
internal sealed record ResidualShift(Plane Across, Plane Down, double Last)
{
    private const int Cell = 16, Rounds = 3;

    /// <summary>Standard deviation of the cells' weights, cells.</summary>
    private const double Reach = 3;

    /// <summary>Root mean square of the shift that was corrected, pixels.</summary>
    public double Size => Rms(Across, Down);

    /// <summary>Measures the shift and gives the later photograph without it.</summary>
    public static (ResidualShift Shift, Plane[] Later) Correct(Plane[] baseline, Plane[] later, ParallelOptions threads)
    {
        var smooth = GaussianMean.Of(baseline, 1, threads);
        var (across, down) = (Cells(baseline[0]), Cells(baseline[0]));
        var (moved, last) = (later, 0.0);
        for (var round = 0; round < Rounds; round++)
        {
            var (u, v) = Step(smooth, GaussianMean.Of(moved, 1, threads), threads);
            last = Rms(u, v);
            for (var i = 0; i < u.Data.Length; i++) (across.Data[i], down.Data[i]) = (across.Data[i] + u.Data[i], down.Data[i] + v.Data[i]);
            moved = Moved(later, across, down, threads);
        }
        return (new ResidualShift(across, down, last), moved);
    }

    private static Plane Cells(Plane of) => new((of.Width + Cell - 1) / Cell, (of.Height + Cell - 1) / Cell);

    private static double Rms(Plane u, Plane v) => Math.Sqrt(u.Data.Zip(v.Data, (a, b) => (double)a * a + (double)b * b).Average());

    private static (Plane U, Plane V) Step(Plane[] baseline, Plane[] later, ParallelOptions threads)
    {
        var sums = Enumerable.Range(0, 5).Select(_ => Cells(baseline[0])).ToArray();
        var limit = Usual(baseline, later);
        Parallel.For(0, sums[0].Height, threads, row =>
        {
            for (var y = Math.Max(1, row * Cell); y < Math.Min(baseline[0].Height - 1, (row + 1) * Cell); y++)
                for (var x = 1; x < baseline[0].Width - 1; x++) Add(baseline, later, y * baseline[0].Width + x, limit, sums, row * sums[0].Width + x / Cell);
        });
        var s = GaussianMean.Of(sums, Reach, threads);
        var floor = 0.02 * Numbers.Robust.Median(s[0].Data.Zip(s[2].Data, (a, b) => (double)a + b).Where(t => t > 0));
        var (u, v) = (Cells(baseline[0]), Cells(baseline[0]));
        for (var i = 0; i < u.Data.Length; i++)
        {
            var (a, b, c) = (s[0].Data[i] + floor, (double)s[1].Data[i], s[2].Data[i] + floor);
            var determinant = a * c - b * b;
            if (!(determinant > 0)) continue;
            (u.Data[i], v.Data[i]) = ((float)((c * s[3].Data[i] - b * s[4].Data[i]) / determinant), (float)((a * s[4].Data[i] - b * s[3].Data[i]) / determinant));
        }
        return (u, v);
    }

    /// <summary>Weighted square of the difference that two in a hundred pixels exceed: beyond it a pixel is taken as changed and says nothing of shifts.</summary>
    private static double Usual(Plane[] baseline, Plane[] later)
    {
        var step = Math.Max(1, baseline[0].Data.Length / 200_000);
        return Numbers.Robust.Quantile(Enumerable.Range(0, baseline[0].Data.Length / step).Select(k => Energy(baseline, later, k * step)).Where(double.IsFinite), 0.98);
    }

    private static double Energy(Plane[] baseline, Plane[] later, int i)
    {
        var sum = 0.0;
        for (var b = 0; b < baseline.Length; b++) sum += Math.Pow(later[b].Data[i] - baseline[b].Data[i], 2);
        return sum * Weight(baseline, i);
    }

    /// <summary>Shot noise grows with light: its reciprocal, never beyond that of dark paint.</summary>
    private static double Weight(Plane[] bands, int i)
    {
        var mean = 0.0;
        foreach (var band in bands) mean += band.Data[i];
        return 1 / (0.01 + Math.Max(0, mean / bands.Length));
    }

    private static void Add(Plane[] baseline, Plane[] later, int i, double limit, Plane[] sums, int cell)
    {
        if (!(Energy(baseline, later, i) <= limit)) return;
        var weight = Weight(baseline, i);
        for (var b = 0; b < baseline.Length; b++)
        {
            var (data, width) = (baseline[b].Data, baseline[b].Width);
            var (gx, gy, d) = ((data[i + 1] - data[i - 1]) / 2.0, (data[i + width] - data[i - width]) / 2.0, (double)later[b].Data[i] - data[i]);
            if (!double.IsFinite(gx + gy)) return;
            sums[0].Data[cell] += (float)(weight * gx * gx);
            sums[1].Data[cell] += (float)(weight * gx * gy);
            sums[2].Data[cell] += (float)(weight * gy * gy);
            sums[3].Data[cell] += (float)(weight * gx * d);
            sums[4].Data[cell] += (float)(weight * gy * d);
        }
    }

    /// <summary>The difference later - baseline is gradient times shift, so that the later one is read as far against the shift.</summary>
    private static Plane[] Moved(Plane[] bands, Plane across, Plane down, ParallelOptions threads)
    {
        var (u, v) = (new CellField(across, Cell, Cell), new CellField(down, Cell, Cell));
        Plane[] moved = [.. bands.Select(b => new Plane(b.Width, b.Height))];
        Parallel.For(0, bands[0].Height, threads, y =>
        {
            Span<double> wx = stackalloc double[4], wy = stackalloc double[4];
            for (var x = 0; x < bands[0].Width; x++)
            {
                var left = CatmullRom(x - u.At(x + 0.5, y + 0.5), wx);
                var top = CatmullRom(y - v.At(x + 0.5, y + 0.5), wy);
                for (var b = 0; b < bands.Length; b++) moved[b][x, y] = Read(bands[b], left, top, wx, wy);
            }
        });
        return moved;
    }

    private static float Read(Plane plane, int left, int top, ReadOnlySpan<double> wx, ReadOnlySpan<double> wy)
    {
        var sum = 0.0;
        for (var j = 0; j < 4; j++)
            for (var i = 0; i < 4; i++) sum += wy[j] * wx[i] * plane[Math.Clamp(left + i, 0, plane.Width - 1), Math.Clamp(top + j, 0, plane.Height - 1)];
        return (float)sum;
    }

    /// <summary>Weights of the four samples about a position between samples (R. Keys, IEEE Trans. ASSP 29 (1981) 1153, a = -1/2) and the first one's index.</summary>
    private static int CatmullRom(double position, Span<double> weights)
    {
        var before = Math.Floor(position);
        var t = position - before;
        (weights[0], weights[1], weights[2], weights[3]) = (((-0.5 * t + 1) * t - 0.5) * t, (1.5 * t - 2.5) * t * t + 1, ((-1.5 * t + 2) * t + 0.5) * t, (0.5 * t - 0.5) * t * t);
        return (int)before - 1;
    }
}
