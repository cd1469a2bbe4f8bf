using MathNet.Numerics.LinearAlgebra;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Unexplained;

/// <summary>Pixels as samples: the logarithm of another light, and terms of the logarithms of visible light, by blocks.</summary>
/// <param name="size">Terms of a sample.</param>
/// <param name="blocks">Each sample's block.</param>
/// <param name="other">That light of each sample, natural logarithm.</param>
/// <param name="terms">Each sample's terms, one sample after the other.</param>
internal sealed class ColourSamples(int size, int[] blocks, double[] other, double[] terms)
{
    private const int Block = 24;

    /// <summary>A few numbers are fitted: so many samples are plenty.</summary>
    private const int Most = 150_000;

    /// <summary>Light below this share says nothing any more: noise and the tone curve's foot.</summary>
    private const double Darkest = 2e-3;

    public int Count => blocks.Length;

    /// <summary>Pixels on a square lattice that have data in all bands.</summary>
    public static ColourSamples Of(Plane other, Plane[] visible)
    {
        var step = Math.Max(1, (int)Math.Ceiling(Math.Sqrt(other.Data.Length / (double)Most)));
        var (logs, size, columns) = (new double[visible.Length], visible.Length * (visible.Length + 3) / 2, (other.Width + Block - 1) / Block);
        var (blocks, values, terms, sample) = (new List<int>(), new List<double>(), new List<double>(), new double[size]);
        for (var y = 0; y < other.Height; y += step)
            for (var x = 0; x < other.Width; x += step)
            {
                var i = y * other.Width + x;
                if (!float.IsFinite(other.Data[i]) || !Logs(visible, i, logs)) continue;
                Terms(logs, sample);
                blocks.Add(y / Block * columns + x / Block);
                values.Add(Log(other.Data[i]));
                terms.AddRange(sample);
            }
        return new ColourSamples(size, [.. blocks], [.. values], [.. terms]);
    }

    public static double Log(float light) => Math.Log(Math.Max(light, Darkest));

    /// <summary>Logarithms of one pixel's bands; false where one has no data.</summary>
    public static bool Logs(Plane[] visible, int i, double[] logs)
    {
        for (var b = 0; b < logs.Length; b++)
        {
            if (!float.IsFinite(visible[b].Data[i])) return false;
            logs[b] = Log(visible[b].Data[i]);
        }
        return true;
    }

    /// <summary>First powers, then all products of two.</summary>
    public static void Terms(double[] logs, double[] terms)
    {
        logs.CopyTo(terms, 0);
        var n = logs.Length;
        for (var a = 0; a < logs.Length; a++)
            for (var b = a; b < logs.Length; b++) terms[n++] = logs[a] * logs[b];
    }

    /// <summary>Less each block's weighted mean: what is the same all over a block drops out.</summary>
    public ColourSamples Centred(double[] weights)
    {
        var count = blocks.Max() + 1;
        var (weight, meanOther, meanTerms) = (new double[count], new double[count], new double[count * size]);
        for (var k = 0; k < Count; k++)
        {
            var (b, w) = (blocks[k], weights[k]);
            weight[b] += w;
            meanOther[b] += w * other[k];
            for (var t = 0; t < size; t++) meanTerms[b * size + t] += w * terms[k * size + t];
        }
        var (values, centred) = (new double[Count], new double[terms.Length]);
        for (var k = 0; k < Count; k++)
        {
            var b = blocks[k];
            // A block of outliers alone has no mean; its samples weigh nothing.
            if (weight[b] <= 0) continue;
            values[k] = other[k] - meanOther[b] / weight[b];
            for (var t = 0; t < size; t++) centred[k * size + t] = terms[k * size + t] - meanTerms[b * size + t] / weight[b];
        }
        return new ColourSamples(size, blocks, values, centred);
    }

    /// <summary>Weighted least squares; null when the terms do not vary.</summary>
    public double[]? Solve(double[] weights)
    {
        var (normal, right) = (Matrix<double>.Build.Dense(size, size), Vector<double>.Build.Dense(size));
        for (var k = 0; k < Count; k++)
            for (var a = 0; a < size; a++)
            {
                var weighted = weights[k] * terms[k * size + a];
                right[a] += weighted * other[k];
                for (var b = 0; b <= a; b++) normal[a, b] += weighted * terms[k * size + b];
            }
        var trace = normal.Trace();
        if (!(trace > 1e-9)) return null;
        // Bands that say the same leave the sum of squares singular; a hair of ridge shares the factor among them.
        for (var a = 0; a < size; a++)
            for (var b = a; b < size; b++) normal[a, b] = normal[b, a] + (a == b ? 1e-9 * trace : 0);
        return [.. normal.Cholesky().Solve(right)];
    }

    /// <summary>What the factors leave of each sample.</summary>
    public double[] Residuals(double[] factors)
    {
        var residuals = (double[])other.Clone();
        for (var k = 0; k < Count; k++)
            for (var t = 0; t < size; t++) residuals[k] -= factors[t] * terms[k * size + t];
        return residuals;
    }
}
