using MathNet.Numerics.LinearAlgebra;
using Sandarac.Analysis.Numbers;
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
    private const int Rounds = 15;
    private const int FewestSamples = 200;

    /// <summary>A few numbers are fitted: so many samples are plenty.</summary>
    private const int Most = 150_000;

    /// <summary>Light below this share says nothing any more: noise and the tone curve's foot.</summary>
    private const double Darkest = 2e-3;

    public int Count => blocks.Length;

    /// <summary>One pixel as a sample: its terms are written, its value is returned. NaN for a pixel that is left out.</summary>
    public delegate double Sampler(int pixel, double[] terms);

    /// <summary>Pixels on a square lattice that have data in all bands: the logarithm of the other light over terms of the logarithms of visible light.</summary>
    public static ColourSamples Of(Plane other, Plane[] visible)
    {
        var logs = new double[visible.Length];
        return Of(other.Width, other.Height, CountTerms(visible.Length), (i, terms) =>
        {
            if (!float.IsFinite(other.Data[i]) || !Logs(visible, i, logs)) return double.NaN;
            Terms(logs, terms);
            return Log(other.Data[i]);
        });
    }

    /// <summary>Pixels on a square lattice.</summary>
    public static ColourSamples Of(int width, int height, int size, Sampler sample)
    {
        var step = Math.Max(1, (int)Math.Ceiling(Math.Sqrt((double)width * height / Most)));
        var columns = (width + Block - 1) / Block;
        var (blocks, values, all, terms) = (new List<int>(), new List<double>(), new List<double>(), new double[size]);
        for (var y = 0; y < height; y += step)
            for (var x = 0; x < width; x += step)
            {
                var value = sample(y * width + x, terms);
                if (!double.IsFinite(value)) continue;
                blocks.Add(y / Block * columns + x / Block);
                values.Add(value);
                all.AddRange(terms);
            }
        return new ColourSamples(size, [.. blocks], [.. values], [.. all]);
    }

    /// <summary>Terms of so many bands: first powers and all products of two.</summary>
    public static int CountTerms(int bands) => bands * (bands + 3) / 2;

    /// <summary>Factors of the terms that leave least of the differences within blocks, robustly: least squares with Tukey's weights, again and again.</summary>
    /// <returns>Factors, and the robust standard deviation of what remains; null when there are too few samples, or the terms do not vary.</returns>
    public (double[] Factors, double Scatter)? Fit()
    {
        if (Count < FewestSamples) return null;
        var weights = Enumerable.Repeat(1.0, Count).ToArray();
        var (factors, scatter) = (Array.Empty<double>(), 0.0);
        for (var i = 0; i < Rounds; i++)
        {
            var centred = Centred(weights);
            if (centred.Solve(weights) is not { } solved) return null;
            var residuals = centred.Residuals(solved);
            (factors, scatter) = (solved, Robust.Sigma(residuals));
            if (scatter < 1e-9) break;
            for (var k = 0; k < weights.Length; k++) weights[k] = Robust.Biweight(residuals[k], scatter);
        }
        return (factors, scatter);
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
    public static void Terms(ReadOnlySpan<double> values, Span<double> terms)
    {
        values.CopyTo(terms);
        var n = values.Length;
        for (var a = 0; a < values.Length; a++)
            for (var b = a; b < values.Length; b++) terms[n++] = values[a] * values[b];
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
        var (products, right) = (new double[size * size], new double[size]);
        for (var k = 0; k < Count; k++)
        {
            var sample = terms.AsSpan(k * size, size);
            for (var a = 0; a < size; a++)
            {
                var weighted = weights[k] * sample[a];
                right[a] += weighted * other[k];
                for (var b = 0; b <= a; b++) products[a * size + b] += weighted * sample[b];
            }
        }
        var normal = Matrix<double>.Build.Dense(size, size, (a, b) => products[Math.Max(a, b) * size + Math.Min(a, b)]);
        var trace = normal.Trace();
        if (!(trace > 1e-9)) return null;
        // Bands that say the same leave the sum of squares singular; a hair of ridge shares the factor among them.
        for (var a = 0; a < size; a++) normal[a, a] += 1e-9 * trace;
        return [.. normal.Cholesky().Solve(Vector<double>.Build.Dense(right))];
    }

    /// <summary>What the factors leave of each sample.</summary>
    private double[] Residuals(double[] factors)
    {
        var residuals = (double[])other.Clone();
        for (var k = 0; k < Count; k++)
            for (var t = 0; t < size; t++) residuals[k] -= factors[t] * terms[k * size + t];
        return residuals;
    }
}
