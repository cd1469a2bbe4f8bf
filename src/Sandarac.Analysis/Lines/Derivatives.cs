using Sandarac.Analysis.Alignment.Pairs;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Lines;

/// <summary>Derivatives of a plane smoothed by a Gaussian, per pixel and per pixel squared; mirrored at the border, NaN wherever a pixel without data is within reach.</summary>
/// <param name="X">d/dx.</param>
/// <param name="Y">d/dy.</param>
/// <param name="Xx">d2/dx2.</param>
/// <param name="Yy">d2/dy2.</param>
/// <param name="Xy">d2/dxdy.</param>
internal sealed record Derivatives(Plane X, Plane Y, Plane Xx, Plane Yy, Plane Xy)
{
    /// <summary>Reach of the weights, standard deviations.</summary>
    private const double Reach = 5;

    /// <summary>Differentiates a plane.</summary>
    /// <param name="plane">Values.</param>
    /// <param name="sigma">Standard deviation, pixels.</param>
    public static Derivatives Of(Plane plane, double sigma)
    {
        var (smooth, first, second) = Weights(sigma);
        var padded = Mirrored(plane, smooth.Length / 2);
        return new Derivatives(GaussianTaps.Apply(padded, first, smooth), GaussianTaps.Apply(padded, smooth, first), GaussianTaps.Apply(padded, second, smooth), GaussianTaps.Apply(padded, smooth, second), GaussianTaps.Apply(padded, first, first));
    }

    /// <summary>First derivative in a direction.</summary>
    public double Slope(int pixel, double cos, double sin) => cos * X.Data[pixel] + sin * Y.Data[pixel];

    /// <summary>Second derivative in a direction.</summary>
    public float Curvature(int pixel, double cos, double sin) => (float)(cos * cos * Xx.Data[pixel] + sin * sin * Yy.Data[pixel] + 2 * cos * sin * Xy.Data[pixel]);

    /// <summary>Direction in which the plane is most strongly valley-shaped, radians from the x axis, -pi/2 to pi/2.</summary>
    public double Principal(int pixel) => 0.5 * Math.Atan2(2 * Xy.Data[pixel], Xx.Data[pixel] - Yy.Data[pixel]);

    /// <summary>The smoothing sums to 1, the first derivative gives 1 on x, the second 0 on a plane without curvature and 1 on x^2 / 2: exact whatever the standard deviation.</summary>
    private static (float[] Smooth, float[] First, float[] Second) Weights(double sigma)
    {
        var radius = (int)Math.Ceiling(Reach * sigma);
        int[] places = [.. Enumerable.Range(-radius, 2 * radius + 1)];
        double[] bell = [.. places.Select(i => Math.Exp(-0.5 * i * i / (sigma * sigma)))];
        var (sum, moment) = (bell.Sum(), places.Sum(i => bell[i + radius] * i * i));
        var (mean, fourth) = (moment / sum, places.Sum(i => bell[i + radius] * Math.Pow(i, 4)));
        return ([.. bell.Select(w => (float)(w / sum))], [.. places.Select(i => (float)(i * bell[i + radius] / moment))],
            [.. places.Select(i => (float)(2 * (i * i - mean) * bell[i + radius] / (fourth - mean * moment)))]);
    }

    private static Plane Mirrored(Plane plane, int by)
    {
        int Inside(int i, int count)
        {
            var turn = ((i % (2 * count)) + 2 * count) % (2 * count);
            return turn < count ? turn : 2 * count - 1 - turn;
        }
        var result = new Plane(plane.Width + 2 * by, plane.Height + 2 * by);
        int[] columns = [.. Enumerable.Range(-by, result.Width).Select(x => Inside(x, plane.Width))];
        for (var y = 0; y < result.Height; y++)
        {
            var from = plane.Row(Inside(y - by, plane.Height));
            var to = result.Row(y);
            for (var x = 0; x < to.Length; x++) to[x] = from[columns[x]];
        }
        return result;
    }
}
