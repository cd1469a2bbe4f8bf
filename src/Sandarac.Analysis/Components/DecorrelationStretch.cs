using MathNet.Numerics.LinearAlgebra;

namespace Sandarac.Analysis.Components;

/// <summary>
/// Decorrelation stretch (Gillespie, Kahle and Walker, Remote Sensing of Environment 20 (1986) 209): bands are turned to their principal components R, each is
/// brought to one standard deviation, and all are turned back, so that colours keep their place: s R D^-1/2 R^T. Components below the cut-off
/// are left out (pseudo-inverse): in their directions the result is flat.
/// </summary>
internal static class DecorrelationStretch
{
    /// <summary>Bands by output bands: an output band is the sum of the bands less their means, times these. The output's covariance is deviation^2 times the identity,
    /// or times the projection on the components that remain.</summary>
    /// <param name="bands">Statistics of bands that vary.</param>
    /// <param name="components">Their principal components above the cut-off.</param>
    /// <param name="scaling">With which the components were found.</param>
    /// <param name="deviation">Standard deviation wanted in each output band.</param>
    public static Matrix<double> Weights(BandStatistics bands, ComponentSet components, BandScaling scaling, double deviation)
    {
        // The components' weights are S R, with S the bands' scales; R is wanted to turn back.
        var turn = ComponentSet.Scales(bands, scaling).Inverse() * components.Weights;
        var scaled = components.Weights.MapIndexed((_, k, w) => w * deviation / Math.Sqrt(components.Variances[k]));
        return scaled * turn.Transpose();
    }
}
