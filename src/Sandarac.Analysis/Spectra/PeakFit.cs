using MathNet.Numerics.LinearAlgebra;

namespace Sandarac.Analysis.Spectra;

/// <summary>A peak's place and size from a fit.</summary>
/// <param name="Channel">Its middle, channels.</param>
/// <param name="ChannelSigma">Standard uncertainty of that from counting, channels.</param>
/// <param name="Area">Counts above the background.</param>
/// <param name="AreaSigma">Standard uncertainty of that from counting.</param>
/// <param name="Width">Standard deviation, channels; the given one where it was not fitted.</param>
/// <param name="Significance">Of the search that found it, in standard deviations.</param>
internal sealed record FittedPeak(double Channel, double ChannelSigma, double Area, double AreaSigma, double Width, double Significance);

/// <summary>Places of peaks by a least-squares fit of Gaussians to groups that touch, above a background with a constant of its own for each group. Gauss and Newton's method; weights from the model.</summary>
internal static class PeakFit
{
    private const int Steps = 12;

    /// <summary>Peaks nearer than this, in standard deviations, are fitted together, and the fit reaches half as far beyond the outermost.</summary>
    private const double Touching = 4.5;

    /// <summary>Most peaks that are fitted together: chains of more are cut, for lines do not make them, and a fit's time grows with the cube.</summary>
    private const int MostTogether = 16;

    /// <summary>Fits every peak.</summary>
    /// <param name="counts">Counts.</param>
    /// <param name="background">Background of each channel.</param>
    /// <param name="peaks">Peaks from low to high, with their significance.</param>
    /// <param name="sigma">Standard deviation of a line at a channel, channels.</param>
    /// <param name="freeWidth">Whether each group's width is fitted as well.</param>
    public static IReadOnlyList<FittedPeak> Of(IReadOnlyList<double> counts, double[] background, IReadOnlyList<(int Channel, double Significance)> peaks, Func<int, double> sigma, bool freeWidth)
    {
        List<FittedPeak> fitted = [];
        for (var i = 0; i < peaks.Count;)
        {
            var end = i + 1;
            while (end < peaks.Count && end - i < MostTogether && peaks[end].Channel - peaks[end - 1].Channel < Touching * sigma(peaks[end].Channel)) end++;
            fitted.AddRange(Group(counts, background, [.. peaks.Skip(i).Take(end - i)], sigma(peaks[i].Channel), freeWidth));
            i = end;
        }
        return fitted;
    }

    /// <summary>Parameters: places, areas, constant, logarithm of the width's ratio.</summary>
    private static IEnumerable<FittedPeak> Group(IReadOnlyList<double> counts, double[] background, (int Channel, double Significance)[] peaks, double sigma, bool freeWidth)
    {
        var (n, reach) = (peaks.Length, (int)Math.Ceiling(Touching / 2 * sigma));
        var (from, to) = (Math.Max(0, peaks[0].Channel - reach), Math.Min(counts.Count - 1, peaks[^1].Channel + reach));
        double Start(int c) => Math.Max(1, (counts[c] - background[c]) * sigma * Math.Sqrt(2 * Math.PI));
        var p = Vector<double>.Build.DenseOfEnumerable([.. peaks.Select(k => (double)k.Channel), .. peaks.Select(k => Start(k.Channel)), 0, 0]);
        Matrix<double> covariance = null!;
        for (var step = 0; step < Steps; step++)
        {
            var (normal, gradient) = Equations(p, counts, background, n, sigma, from, to, freeWidth);
            covariance = normal.Inverse();
            var change = covariance * gradient;
            for (var k = 0; k < n; k++) p[k] += Math.Clamp(change[k], -0.5 * sigma, 0.5 * sigma);
            for (var k = n; k < 2 * n; k++) p[k] = Math.Max(1e-3, p[k] + change[k]);
            p[2 * n] += change[2 * n];
            p[2 * n + 1] = Math.Clamp(p[2 * n + 1] + Math.Clamp(change[2 * n + 1], -0.2, 0.2), -0.8, 0.8);
        }
        // One that ran away from where it was found has no place of its own.
        return peaks.Select((k, i) => Math.Abs(p[i] - k.Channel) > 1.5 * sigma ? new FittedPeak(k.Channel, sigma, Start(k.Channel), Start(k.Channel), sigma, k.Significance)
            : new FittedPeak(p[i], Math.Sqrt(covariance[i, i]), p[n + i], Math.Sqrt(covariance[n + i, n + i]), sigma * Math.Exp(p[2 * n + 1]), k.Significance));
    }

    private static (Matrix<double> Normal, Vector<double> Gradient) Equations(Vector<double> p, IReadOnlyList<double> counts, double[] background, int n, double sigma, int from, int to, bool freeWidth)
    {
        var width = sigma * Math.Exp(p[2 * n + 1]);
        var (normal, gradient, slope) = (Matrix<double>.Build.Dense(2 * n + 2, 2 * n + 2), Vector<double>.Build.Dense(2 * n + 2), Vector<double>.Build.Dense(2 * n + 2));
        for (var c = from; c <= to; c++)
        {
            var model = background[c] + p[2 * n];
            (slope[2 * n], slope[2 * n + 1]) = (1, 0);
            for (var k = 0; k < n; k++)
            {
                var u = (c - p[k]) / width;
                var g = Math.Exp(-0.5 * u * u) / (width * Math.Sqrt(2 * Math.PI));
                model += p[n + k] * g;
                (slope[k], slope[n + k]) = (p[n + k] * g * u / width, g);
                if (freeWidth) slope[2 * n + 1] += p[n + k] * g * (u * u - 1);
            }
            var weight = 1 / Math.Max(1, model);
            normal += weight * slope.OuterProduct(slope);
            gradient += weight * (counts[c] - model) * slope;
        }
        for (var k = 0; k < 2 * n + 2; k++) normal[k, k] += 1e-12 * normal[k, k] + 1e-12;
        if (!freeWidth) normal[2 * n + 1, 2 * n + 1] = 1;
        return (normal, gradient);
    }
}
