namespace Sandarac.Analysis.Rings.Measuring;

/// <summary>Weighted sums along a row of numbers.</summary>
internal static class Smoothing
{
    /// <summary>The weighted mean about each number; at the ends, of what is there.</summary>
    public static double[] Of(IReadOnlyList<double> values, IReadOnlyList<float> weights)
    {
        var (result, radius) = (new double[values.Count], weights.Count / 2);
        for (var i = 0; i < result.Length; i++)
        {
            var (sum, weight) = (0.0, 0.0);
            for (var k = Math.Max(-radius, -i); k <= Math.Min(radius, result.Length - 1 - i); k++) (sum, weight) = (sum + weights[k + radius] * values[i + k], weight + weights[k + radius]);
            result[i] = sum / weight;
        }
        return result;
    }
}
