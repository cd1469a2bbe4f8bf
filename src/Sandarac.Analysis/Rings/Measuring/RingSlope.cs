using Sandarac.Analysis.Alignment.Pairs;

namespace Sandarac.Analysis.Rings.Measuring;

/// <summary>
/// How boundaries lean against the line, column by column: least squares of the two derivatives in a window along the line (the structure tensor's solution when the picture varies along one direction: Bigun and Granlund, ICCV 1987),
/// found, straightened and found again until nothing leans. Rays and cracks that run along the line have no derivative along it and do not weigh.
/// </summary>
internal static class RingSlope
{
    private const int Passes = 6;
    private const double Steepest = 1, LeastWindow = 48, Blur = 1.5;

    /// <summary>For each column, columns a pixel across: the tangent of the lean, -1 to 1.</summary>
    public static double[] Of(RingStrip strip)
    {
        var (slopes, taps) = (new double[strip.Values.Width], GaussianTaps.Of(Blur));
        var window = GaussianTaps.Of(Math.Max(LeastWindow, strip.Values.Height * strip.RowStep)).Smooth;
        if (strip.Values.Width <= 2 * taps.Radius || strip.Values.Height <= 2 * taps.Radius) return slopes;
        for (var pass = 0; pass < Passes; pass++)
        {
            var values = strip.Straightened(slopes).Values;
            var (along, across) = (GaussianTaps.Apply(values, taps.Derivative, taps.Smooth), GaussianTaps.Apply(values, taps.Smooth, taps.Derivative));
            var (square, product) = (new double[slopes.Length], new double[slopes.Length]);
            for (var y = 0; y < along.Height; y++)
                for (var x = 0; x < along.Width; x++)
                {
                    square[x + taps.Radius] += along[x, y] * along[x, y];
                    product[x + taps.Radius] += along[x, y] * across[x, y] / strip.RowStep;
                }
            (square, product) = (Smoothing.Of(square, window), Smoothing.Of(product, window));
            for (var i = 0; i < slopes.Length; i++) slopes[i] = Math.Clamp(slopes[i] - (square[i] > 0 ? product[i] / square[i] : 0), -Steepest, Steepest);
        }
        return slopes;
    }
}
