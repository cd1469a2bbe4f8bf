namespace Sandarac.Analysis.Spectra;

/// <summary>Where peaks stand above what is beside them, by a filter of zero area in a peak's shape; its significance is the filter's answer over its standard deviation under Poisson counting
/// (the way of M. A. Mariscotti, Nucl. Instrum. Methods 50 (1967) 309, with the better filter of G. W. Phillips and K. W. Marlow, ibid. 137 (1976) 525; from memory).</summary>
internal static class PeakSearch
{
    /// <summary>Half-width of the filter in standard deviations of a line: where a peak has ended and a neighbour has hardly begun.</summary>
    private const double Reach = 2.5;

    /// <summary>Peaks as channel and significance, from low channels to high.</summary>
    /// <param name="values">Counts, or what a model leaves of them.</param>
    /// <param name="variance">Variance of each value.</param>
    /// <param name="sigma">Standard deviation of a line at a channel, channels.</param>
    /// <param name="least">Least significance.</param>
    public static IReadOnlyList<(int Channel, double Significance)> Find(double[] values, double[] variance, Func<int, double> sigma, double least)
    {
        var answer = Enumerable.Range(0, values.Length).Select(i => Answer(values, variance, i, sigma(i))).ToArray();
        List<(int, double)> peaks = [];
        for (var i = 1; i < answer.Length - 1; i++)
            if (answer[i] >= least && IsGreatest(answer, i, Math.Max(1, (int)(0.7 * sigma(i))))) peaks.Add((i, answer[i]));
        return peaks;
    }

    /// <summary>The filter's answer at a channel in standard deviations; 0 where the filter reaches over an end.</summary>
    public static double Answer(double[] values, double[] variance, int at, double sigma)
    {
        var half = Math.Max(2, (int)Math.Ceiling(Reach * sigma));
        if (at < half || at + half >= values.Length) return 0;
        double[] shape = [.. Enumerable.Range(-half, 2 * half + 1).Select(j => Math.Exp(-0.5 * j * j / (sigma * sigma)))];
        var (mean, sum, spread) = (shape.Average(), 0.0, 0.0);
        for (var j = 0; j < shape.Length; j++)
        {
            var w = shape[j] - mean;
            sum += w * values[at - half + j];
            spread += w * w * Math.Max(1, variance[at - half + j]);
        }
        return sum / Math.Sqrt(spread);
    }

    private static bool IsGreatest(double[] answer, int at, int reach)
    {
        for (var j = -reach; j <= reach; j++)
            if (at + j >= 0 && at + j < answer.Length && (answer[at + j] > answer[at] || answer[at + j] == answer[at] && j < 0)) return false;
        return true;
    }
}
