using System.Runtime.Intrinsics;

namespace Sandarac.Imaging.Warping;

/// <summary>
/// Cubic convolution with a = -1/2 (Catmull-Rom): passes through the samples, exact for quadratics. R. Keys, Cubic convolution interpolation for
/// digital image processing, IEEE Trans. ASSP 29 (1981) 1153.
/// </summary>
internal static class CubicKernel
{
    /// <summary>The kernel at a distance in samples.</summary>
    public static double At(double distance)
    {
        var t = Math.Abs(distance);
        return t < 1 ? (1.5 * t - 2.5) * t * t + 1 : t < 2 ? ((-0.5 * t + 2.5) * t - 4) * t + 2 : 0;
    }

    /// <summary>Weights of the samples around a position, widened by <paramref name="stretch"/> where the target is coarser than the source,
    /// so that fine detail averages out instead of turning into false patterns. They sum to 1.</summary>
    /// <param name="position">Pixel position; sample i has its centre at i + 0.5.</param>
    /// <param name="stretch">Source pixels per target pixel, at least 1.</param>
    /// <param name="weights">Receives <see cref="Taps"/> weights.</param>
    /// <returns>The first sample's index.</returns>
    public static int Weights(double position, double stretch, Span<float> weights)
    {
        var first = (int)Math.Floor(position - 0.5 - 2 * stretch) + 1;
        double sum = 0;
        Span<double> w = stackalloc double[weights.Length];
        for (var i = 0; i < w.Length; i++) sum += w[i] = At((first + i + 0.5 - position) / stretch);
        for (var i = 0; i < w.Length; i++) weights[i] = (float)(w[i] / sum);
        return first;
    }

    /// <summary>The same for a kernel that is not widened, its four weights as polynomials of the position between samples.</summary>
    /// <returns>The first sample's index.</returns>
    public static int FourWeights(double position, out Vector128<float> weights)
    {
        var between = position - 0.5;
        var before = Math.Floor(between);
        var t = between - before;
        weights = Vector128.Create(
            (float)(((-0.5 * t + 1) * t - 0.5) * t),
            (float)((1.5 * t - 2.5) * t * t + 1),
            (float)(((-1.5 * t + 2) * t + 0.5) * t),
            (float)((0.5 * t - 0.5) * t * t));
        return (int)before - 1;
    }

    /// <summary>Samples along one axis.</summary>
    public static int Taps(double stretch) => (int)Math.Ceiling(4 * stretch);
}
