using MathNet.Numerics.LinearAlgebra;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Components;

/// <summary>Sums of bands, pixel by pixel, in double: offset + sum of weight (value / full scale - mean). NaN where any band has no data.</summary>
/// <param name="fullScales">The file value that counts as 1 in each band.</param>
/// <param name="means">Mean of each band, as a share of full scale.</param>
/// <param name="weights">Bands by outputs.</param>
/// <param name="offset">Added to each output.</param>
internal sealed class BandTransform(IReadOnlyList<double> fullScales, IReadOnlyList<double> means, Matrix<double> weights, double offset)
{
    /// <summary>The outputs of a window.</summary>
    /// <param name="bands">Bands in the files' own values.</param>
    public Plane[] Apply(IReadOnlyList<Plane> bands)
    {
        var outputs = new Plane[weights.ColumnCount];
        var sums = new double[bands[0].Data.Length];
        for (var k = 0; k < outputs.Length; k++)
        {
            Array.Fill(sums, offset);
            // Bands of weight zero count too: where one has no data, zero times NaN is NaN.
            for (var b = 0; b < bands.Count; b++) Add(bands[b].Data, means[b] * fullScales[b], weights[b, k] / fullScales[b], sums);
            outputs[k] = new Plane(bands[0].Width, bands[0].Height, [.. sums.Select(v => double.IsFinite(v) ? (float)v : float.NaN)]);
        }
        return outputs;
    }

    private static void Add(float[] band, double mean, double weight, double[] sums)
    {
        for (var i = 0; i < sums.Length; i++) sums[i] += weight * (band[i] - mean);
    }
}
