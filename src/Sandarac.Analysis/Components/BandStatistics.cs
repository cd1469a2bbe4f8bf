using MathNet.Numerics.LinearAlgebra;
using Sandarac.Analysis.Declaring;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Components;

/// <summary>Means and covariances of bands over the pixels that have data in all of them, as shares of each file's full scale.</summary>
/// <param name="Count">Pixels with data in every band.</param>
/// <param name="Missing">The other pixels.</param>
/// <param name="Mean">Mean of each band.</param>
/// <param name="Covariance">Covariance with divisor n - 1.</param>
/// <param name="Noise">Covariance of the noise: half the mean product of the differences between a pixel and its right and its lower neighbour (Green, Berman,
/// Switzer and Craig, IEEE Transactions on Geoscience and Remote Sensing 26 (1988) 65, section IV); null where no two neighbours have data.</param>
internal sealed record BandStatistics(long Count, long Missing, double[] Mean, Matrix<double> Covariance, Matrix<double>? Noise)
{
    /// <summary>Side of the tiles in which sums are gathered. Fixed: last digits depend on it.</summary>
    public const int TileSize = 512;

    /// <summary>Spacing of float32 numbers at 1.</summary>
    private const double FloatSpacing = 1.0 / (1 << 23);

    /// <summary>Gathers the statistics in one pass over the images.</summary>
    public static BandStatistics Of(LayerBands bands, RunContext context)
    {
        var sums = new BandMoments(bands.Names.Count);
        foreach (var tile in TiledRun.Map(bands.Images, TileSize, 1, (tile, windows) => BandMoments.Of(bands.Take(windows), tile), context)) sums.Add(tile);
        var full = bands.FullScales;
        return new BandStatistics(sums.Count, sums.Missing, [.. sums.Mean.Select((m, b) => m / full[b])], Divided(sums.Products, Math.Max(1, sums.Count - 1), full),
            sums.Pairs == 0 ? null : Divided(sums.Differences, 2.0 * sums.Pairs, full));
    }

    /// <summary>Standard deviation of a band.</summary>
    public double Deviation(int band) => Math.Sqrt(Covariance[band, band]);

    /// <summary>Bands that vary by more than the rounding of float32 numbers.</summary>
    public int[] Varying => [.. Enumerable.Range(0, Mean.Length).Where(b => Deviation(b) > FloatSpacing * Math.Abs(Mean[b]))];

    /// <summary>The statistics of some of the bands.</summary>
    public BandStatistics Only(int[] bands)
    {
        Matrix<double> Part(Matrix<double> m) => Matrix<double>.Build.Dense(bands.Length, bands.Length, (a, b) => m[bands[a], bands[b]]);
        return this with { Mean = [.. bands.Select(b => Mean[b])], Covariance = Part(Covariance), Noise = Noise is null ? null : Part(Noise) };
    }

    /// <summary>Why nothing can be said of these bands together; null when something can.</summary>
    public string? WhyNoAnswer() => Count == 0 ? "No pixel has data in all bands."
        : Varying.Length < 2 ? FormattableString.Invariant($"Bands that vary over the pixels with data: {Varying.Length} of {Mean.Length}; two at least are needed.")
        : null;

    /// <summary>A warning for each band of one value.</summary>
    public IEnumerable<Warning> FlatBands(IReadOnlyList<string> names) =>
        names.Where((_, b) => !Varying.Contains(b)).Select(name => new Warning("flat-band", $"{name} has one value throughout and was left out."));

    private static Matrix<double> Divided(double[,] sums, double divisor, IReadOnlyList<double> full) =>
        Matrix<double>.Build.Dense(full.Count, full.Count, (a, b) => sums[Math.Min(a, b), Math.Max(a, b)] / divisor / full[a] / full[b]);
}
