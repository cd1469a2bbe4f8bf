using MathNet.Numerics.LinearAlgebra;

namespace Sandarac.Analysis.Components;

/// <summary>How bands are weighed before components are sought.</summary>
internal enum BandScaling
{
    /// <summary>As they are: a band with more contrast counts more.</summary>
    Covariance,

    /// <summary>Each divided by its standard deviation.</summary>
    Correlation,
}

/// <summary>Uncorrelated sums of bands, in order. The sign of each is chosen so that its greatest loading is positive; of loadings equal to 1e-9, that of the first band.</summary>
/// <param name="Weights">Bands by components: a component is the sum of the bands less their means, times these.</param>
/// <param name="Variances">Variance of each component.</param>
/// <param name="Total">Variance of all bands together, as they were weighed; more than the components' when some were left out.</param>
/// <param name="Loadings">Bands by components: correlation of band and component.</param>
/// <param name="NoiseFractions">Share of each component's variance that is noise; null where the noise is not known.</param>
internal sealed record ComponentSet(Matrix<double> Weights, double[] Variances, double Total, Matrix<double> Loadings, double[]? NoiseFractions)
{
    /// <summary>Components with less variance than this share of the greatest repeat what the others hold: the rounding of float32 values lies near 1e-14, that of 16 bits above 1e-10.</summary>
    public const double Dependent = 1e-10;

    /// <summary>Principal components: directions of greatest variance (Hotelling, Journal of Educational Psychology 24 (1933) 417). As many as hold more than a share of the greatest variance.</summary>
    /// <param name="bands">Statistics of bands that vary.</param>
    /// <param name="scaling">How bands are weighed.</param>
    /// <param name="least">That share.</param>
    public static ComponentSet Principal(BandStatistics bands, BandScaling scaling, double least = Dependent)
    {
        var scale = Scales(bands, scaling);
        var (variances, vectors) = Eigen(scale * bands.Covariance * scale);
        var kept = variances.TakeWhile(v => v > least * variances[0]).Count();
        return Of(bands, scale * vectors.SubMatrix(0, vectors.RowCount, 0, kept), variances[..kept], variances.Sum());
    }

    /// <summary>
    /// Minimum noise fraction: of all sums of bands the one in which noise has the least share, then the next (Green et al. 1988). The bands are made uncorrelated with
    /// unit variance first, so that bands without noise, or that repeat others, divide nothing by zero. Components have unit variance.
    /// </summary>
    /// <param name="bands">Statistics of bands that vary.</param>
    /// <param name="noise">Covariance of their noise.</param>
    public static ComponentSet LeastNoise(BandStatistics bands, Matrix<double> noise)
    {
        var principal = Principal(bands, BandScaling.Correlation);
        var white = principal.Weights * Diagonal(principal.Variances.Select(v => 1 / Math.Sqrt(v)));
        var vectors = Eigen(white.Transpose() * noise * white).Vectors;
        var leastFirst = Matrix<double>.Build.DenseOfColumnVectors(vectors.EnumerateColumns().Reverse());
        return Of(bands, white * leastFirst, [.. principal.Variances.Select(_ => 1.0)], principal.Variances.Length);
    }

    /// <summary>Diagonal of what bands are multiplied by before components are sought.</summary>
    public static Matrix<double> Scales(BandStatistics bands, BandScaling scaling) =>
        Diagonal(bands.Mean.Select((_, b) => scaling == BandScaling.Correlation ? 1 / bands.Deviation(b) : 1));

    private static ComponentSet Of(BandStatistics bands, Matrix<double> weights, double[] variances, double total)
    {
        var shared = bands.Covariance * weights;
        var loadings = shared.MapIndexed((b, k, v) => v / bands.Deviation(b) / Math.Sqrt(variances[k]));
        var signs = Diagonal(loadings.EnumerateColumns().Select(Sign));
        double[]? fractions = bands.Noise is not { } noise ? null : [.. variances.Select((v, k) => weights.Column(k) * (noise * weights.Column(k)) / v)];
        return new ComponentSet(weights * signs, variances, total, loadings * signs, fractions);
    }

    private static double Sign(Vector<double> loadings) => Math.Sign(loadings.First(l => Math.Abs(l) >= loadings.AbsoluteMaximum() - 1e-9));

    /// <summary>Eigenvalues, greatest first, and their vectors as columns.</summary>
    private static (double[] Values, Matrix<double> Vectors) Eigen(Matrix<double> matrix)
    {
        // What rounding left unequal on the two sides of the diagonal would count as a part that turns.
        var eigen = ((matrix + matrix.Transpose()) / 2).Evd(Symmetricity.Symmetric);
        int[] order = [.. Enumerable.Range(0, matrix.RowCount).OrderByDescending(k => eigen.EigenValues[k].Real)];
        return ([.. order.Select(k => eigen.EigenValues[k].Real)], Matrix<double>.Build.DenseOfColumnVectors(order.Select(k => eigen.EigenVectors.Column(k))));
    }

    private static Matrix<double> Diagonal(IEnumerable<double> values) => Matrix<double>.Build.DenseOfDiagonalArray([.. values]);
}
