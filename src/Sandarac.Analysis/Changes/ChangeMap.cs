using Sandarac.Imaging;

namespace Sandarac.Analysis.Changes;

/// <summary>Where the difference stands out of its noise, at any of several scales.</summary>
/// <param name="Ratio">The statistic over its limit, the highest of all scales; above 1 is a candidate, 0 where the colour differs too little, NaN where nothing is compared.</param>
/// <param name="Scale">The scale that gave it.</param>
/// <param name="Scales">The statistics.</param>
/// <param name="Tails">How high chance alone comes at each.</param>
/// <param name="Limits">The limit of each.</param>
internal sealed record ChangeMap(Plane Ratio, byte[] Scale, IReadOnlyList<ScaleStatistic> Scales, IReadOnlyList<PeakTail> Tails, double[] Limits)
{
    private const double Finest = 0.7;

    /// <summary>Searches.</summary>
    /// <param name="noise">The difference in its noise.</param>
    /// <param name="baseline">The baseline.</param>
    /// <param name="colour">The difference in colour.</param>
    /// <param name="widest">Standard deviation of the widest average, pixels.</param>
    /// <param name="falseAlarms">Number of false candidates that chance may be expected to give over the whole picture.</param>
    /// <param name="leastColour">Least difference in colour at the scale, CIELAB 1976.</param>
    /// <param name="step">Hears how many scales are done, and cancels.</param>
    /// <param name="threads">Threads.</param>
    /// <returns>Null when the picture is too small to tell chance from change.</returns>
    public static ChangeMap? Search(DifferenceNoise noise, Plane[] baseline, ColourDifference colour, double widest, double falseAlarms, double leastColour, Action<double> step, ParallelOptions threads)
    {
        var (scales, peaks) = (new List<ScaleStatistic>(), new List<double[]>());
        for (var sigma = Finest; sigma <= Math.Max(widest, Finest); sigma *= 2)
        {
            var scale = ScaleStatistic.Of(noise, baseline, sigma, threads);
            var own = scale.Peaks();
            if (own.Length < PeakTail.Fewest) break;
            scales.Add(scale);
            peaks.Add(own);
            step(Math.Min(1, sigma / widest));
        }
        if (scales.Count == 0 || peaks.Any(p => p[p.Length / 2] <= 0)) return null;
        var tails = PeakTail.Fit(peaks);
        double[] limits = [.. tails.Select(t => t.HeightFor(falseAlarms / scales.Count))];
        var (ratio, from) = (baseline[0].Select(v => float.IsFinite(v) ? 0 : float.NaN), new byte[baseline[0].Data.Length]);
        for (var s = 0; s < scales.Count; s++)
        {
            var averaged = colour.Averaged(scales[s].Sigma, threads);
            for (var i = 0; i < from.Length; i++)
                if (scales[s].Values.Data[i] / limits[s] is var own && own > ratio.Data[i] && averaged.At(i) >= leastColour) (ratio.Data[i], from[i]) = ((float)own, (byte)s);
        }
        return new ChangeMap(ratio, from, scales, tails, limits);
    }

    /// <summary>Candidates at least so strong as one that peaks at a pixel which chance alone is expected to give over the whole picture, at all scales together.</summary>
    public double Expected(int pixel) => Scales.Count * Tails[Scale[pixel]].Expected(Scales[Scale[pixel]].Values.Data[pixel]);
}
