using System.Runtime.Intrinsics;

namespace Sandarac.Analysis.Sections;

/// <summary>What a layer's profiles look like: a normal distribution in each channel.</summary>
internal sealed class LayerModel
{
    /// <summary>Least variance in a channel, in that of grains and noise.</summary>
    private const double LeastVariance = 0.1;

    private readonly Vector256<float> _mean, _scale;

    private LayerModel(double[] mean, double[] variance)
    {
        Mean = mean;
        _mean = Vector256.Create([.. Enumerable.Range(0, Vector256<float>.Count).Select(c => c < mean.Length ? (float)mean[c] : 0)]);
        _scale = Vector256.Create([.. Enumerable.Range(0, Vector256<float>.Count).Select(c => c < mean.Length ? (float)(1 / Math.Sqrt(variance[c])) : 0)]);
        Constant = (float)(variance.Sum(Math.Log) / 2);
    }

    public double[] Mean { get; }

    /// <summary>Half the logarithm of the variances' product.</summary>
    public float Constant { get; }

    /// <summary>Numbers that describe a layer in so many channels.</summary>
    public static int Parameters(int channels) => 2 * channels;

    /// <summary>Negative logarithm of a value's probability, but for a constant that all layers share.</summary>
    public float Cost(Vector256<float> value)
    {
        var d = (value - _mean) * _scale;
        return 0.5f * Vector256.Sum(d * d) + Constant;
    }

    /// <summary>How far apart two layers look: the mean of their squared distances in their own deviations, channel by channel.</summary>
    public double Away(LayerModel other) => (Cost(other._mean) - Constant + other.Cost(_mean) - other.Constant) / Mean.Length;

    /// <summary>Fits one to the rows of each profile from one edge to another, outliers left out in a second pass; null when there are too few.</summary>
    public static LayerModel? Fit(Profiles profiles, int[] from, int[] to) => Moments(profiles, from, to, null) is { } first ? Moments(profiles, from, to, first) ?? first : null;

    private static LayerModel? Moments(Profiles profiles, int[] from, int[] to, LayerModel? near)
    {
        var (n, count) = (profiles.Channels, 0);
        var (sum, square) = (Vector512<double>.Zero, Vector512<double>.Zero);
        for (var p = 0; p < profiles.Count; p++)
        {
            // In float within one profile, about the first value so that nothing cancels; in double from profile to profile.
            var (s, q, c, about) = (Vector256<float>.Zero, Vector256<float>.Zero, 0, default(Vector256<float>?));
            for (var i = p * profiles.Rows + from[p]; i < p * profiles.Rows + to[p]; i++)
            {
                if (!profiles.Known[i]) continue;
                var value = profiles.Values[i];
                if (near is not null && near.Cost(value) >= profiles.Anything) continue;
                var d = value - (about ??= value);
                (s, q, c) = (s + d, q + d * d, c + 1);
            }
            if (about is not { } a) continue;
            var (ws, wq, wa) = (Wide(s), Wide(q), Wide(a));
            sum += ws + wa * c;
            square += wq + 2 * wa * ws + wa * wa * c;
            count += c;
        }
        if (count < 3 * n) return null;
        double[] mean = [.. Enumerable.Range(0, n).Select(c => sum[c] / count)];
        return new LayerModel(mean, [.. Enumerable.Range(0, n).Select(c => Math.Max(LeastVariance, square[c] / count - mean[c] * mean[c]))]);
    }

    private static Vector512<double> Wide(Vector256<float> v) => Vector512.Create(Vector256.WidenLower(v), Vector256.WidenUpper(v));
}
