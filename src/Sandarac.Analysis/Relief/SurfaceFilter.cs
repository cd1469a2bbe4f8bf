using System.Numerics.Tensors;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Relief;

/// <summary>The Gaussian filter of surface texture (ISO 16610-61): a wave of the cut-off's length comes through at one half.</summary>
internal static class SurfaceFilter
{
    /// <summary>alpha = sqrt(ln 2 / pi) of ISO 16610-21; the weight at distance x is exp(-pi (x / (alpha cut-off))^2).</summary>
    private static readonly double Alpha = Math.Sqrt(Math.Log(2) / Math.PI);

    /// <summary>The long waves of a height map. Near the border and beside unknown places the weights of what is known are brought to 1 again; NaN stays.</summary>
    /// <param name="height">Height.</param>
    /// <param name="cutOff">Cut-off, pixels.</param>
    /// <param name="parallel">Threads.</param>
    public static Plane LongWaves(Plane height, double cutOff, ParallelOptions parallel)
    {
        var taps = Taps(cutOff);
        var (value, known) = (height.Select(v => float.IsFinite(v) ? v : 0), height.Select(v => float.IsFinite(v) ? 1 : 0));
        (value, known) = (Across(Down(value, taps, parallel), taps, parallel), Across(Down(known, taps, parallel), taps, parallel));
        for (var i = 0; i < value.Data.Length; i++) value.Data[i] = float.IsFinite(height.Data[i]) ? value.Data[i] / known.Data[i] : float.NaN;
        return value;
    }

    /// <summary>Weights at distance 0, 1, ...; beyond the cut-off's length they are below 1e-6.</summary>
    private static float[] Taps(double cutOff)
    {
        double[] weights = [.. Enumerable.Range(0, 1 + (int)Math.Ceiling(cutOff)).Select(x => Math.Exp(-Math.PI * Math.Pow(x / (Alpha * cutOff), 2)))];
        var sum = 2 * weights.Sum() - weights[0];
        return [.. weights.Select(w => (float)(w / sum))];
    }

    private static Plane Down(Plane plane, float[] taps, ParallelOptions parallel)
    {
        var result = new Plane(plane.Width, plane.Height);
        Parallel.For(0, plane.Height, parallel, y =>
        {
            var row = result.Row(y);
            for (var k = 1 - taps.Length; k < taps.Length; k++)
                if (y + k >= 0 && y + k < plane.Height) TensorPrimitives.MultiplyAdd<float>(plane.Row(y + k), taps[Math.Abs(k)], row, row);
        });
        return result;
    }

    private static Plane Across(Plane plane, float[] taps, ParallelOptions parallel)
    {
        var result = new Plane(plane.Width, plane.Height);
        Parallel.For(0, plane.Height, parallel, y =>
        {
            var from = plane.Row(y);
            var to = result.Row(y);
            for (var k = Math.Max(1 - taps.Length, 1 - plane.Width); k < Math.Min(taps.Length, plane.Width); k++)
            {
                var target = k < 0 ? to[-k..] : to[..^k];
                TensorPrimitives.MultiplyAdd<float>(k < 0 ? from[..^-k] : from[k..], taps[Math.Abs(k)], target, target);
            }
        });
        return result;
    }
}
