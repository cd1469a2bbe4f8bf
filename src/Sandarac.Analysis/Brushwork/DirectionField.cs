using Sandarac.Imaging;

namespace Sandarac.Analysis.Brushwork;

/// <summary>
/// Which way the brush was pulled: the direction across which the surface slopes least, from the structure tensor of the slopes (Bigun and Granlund, ICCV 1987, 433;
/// Kass and Witkin, Computer Vision, Graphics and Image Processing 37 (1987) 362, both from memory). Taken from the slopes themselves it does not depend on where a lamp stood.
/// </summary>
/// <param name="Angle">Radians from x towards y (y down), 0 to pi; NaN is no data.</param>
/// <param name="Coherence">0 (no direction) to 1 (furrows all one way): difference over sum of the tensor's eigenvalues.</param>
internal sealed record DirectionField(Plane Angle, Plane Coherence)
{
    /// <summary>The field at a scale.</summary>
    /// <param name="slopeX">Slopes along x.</param>
    /// <param name="slopeY">Slopes along y.</param>
    /// <param name="sigma">Standard deviation of the Gaussian window, pixels.</param>
    /// <param name="threads">How many rows at once.</param>
    public static DirectionField Of(Plane slopeX, Plane slopeY, double sigma, ParallelOptions threads)
    {
        Plane Product(Func<float, float, float> product)
        {
            var plane = new Plane(slopeX.Width, slopeX.Height);
            for (var i = 0; i < plane.Data.Length; i++) plane.Data[i] = product(slopeX.Data[i], slopeY.Data[i]);
            return plane;
        }
        var means = GaussianMean.Of([Product((p, q) => p * p - q * q), Product((p, q) => 2 * p * q), Product((p, q) => p * p + q * q)], sigma, threads);
        var (difference, mixed, sum) = (means[0], means[1], means[2]);
        var (angle, coherence) = (new Plane(slopeX.Width, slopeX.Height), new Plane(slopeX.Width, slopeX.Height));
        Parallel.For(0, angle.Height, threads, y =>
        {
            for (var i = y * angle.Width; i < (y + 1) * angle.Width; i++)
            {
                var (d, m, s) = (difference.Data[i], mixed.Data[i], sum.Data[i]);
                coherence.Data[i] = s > 0 ? MathF.Sqrt(d * d + m * m) / s : float.IsNaN(s) ? float.NaN : 0;
                angle.Data[i] = s > 0 ? (float)Axial.Between0AndPi(0.5 * Math.Atan2(m, d) + Math.PI / 2) : float.NaN;
            }
        });
        return new DirectionField(angle, coherence);
    }
}
