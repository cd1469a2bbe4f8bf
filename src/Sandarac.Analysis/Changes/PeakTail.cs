using Sandarac.Analysis.Numbers;

namespace Sandarac.Analysis.Changes;

/// <summary>
/// How often chance alone gives a peak so high, from the peaks themselves (an empirical null: Efron, J. American Statistical Association 99 (2004) 96): beyond the quantile 0.7 their survival
/// falls as exp(-(x^k - u^k) / g) (a Weibull tail; k = 2 for normal noise, less where tails are long), fitted by maximum likelihood to peaks below a high quantile only, so that real
/// changes do not take part. One k for all scales.
/// </summary>
/// <param name="Count">How many peaks there are.</param>
/// <param name="From">u.</param>
/// <param name="Power">k.</param>
/// <param name="Fall">g.</param>
internal sealed record PeakTail(int Count, double From, double Power, double Fall)
{
    /// <summary>Peaks fewer than these do not determine a tail.</summary>
    public const int Fewest = 100;

    /// <summary>The fit goes from the first quantile to another that leaves out one in a hundred, or so many where these are more, but at most one in ten.</summary>
    private const double Lowest = 0.7, Contaminated = 0.01, MostContaminated = 0.1;
    private const int Changes = 40;

    /// <summary>Number of peaks at least so high that chance alone is expected to give over the whole picture.</summary>
    public double Expected(double peak) => Count * (1 - Lowest) * Math.Exp(-Math.Max(0, Math.Pow(Math.Max(peak, 0), Power) - Math.Pow(From, Power)) / Fall);

    /// <summary>The height that chance is expected to reach so many times.</summary>
    public double HeightFor(double expected) => Math.Pow(Math.Pow(From, Power) + Fall * Math.Max(0, Math.Log(Count * (1 - Lowest) / expected)), 1 / Power);

    /// <summary>Fits all scales.</summary>
    /// <param name="scales">Peaks of each scale, the least first; at least <see cref="Fewest"/> each.</param>
    public static IReadOnlyList<PeakTail> Fit(IReadOnlyList<double[]> scales)
    {
        Bulk[] bulks = [.. scales.Select(Bulk.Of)];
        var power = Minimum(k => bulks.Sum(b => b.Misfit(k, b.BestFall(k))), 0.5, 2);
        return [.. bulks.Select((b, s) => new PeakTail(scales[s].Length, b.From, power, b.BestFall(power)))];
    }

    /// <summary>Least value of a function with one valley, by golden section.</summary>
    private static double Minimum(Func<double, double> of, double low, double high)
    {
        const double golden = 0.6180339887498949;
        var (a, b) = (high - golden * (high - low), low + golden * (high - low));
        var (fa, fb) = (of(a), of(b));
        while (high - low > 1e-3)
            if (fa < fb)
            {
                (high, b, fb) = (b, a, fa);
                a = high - golden * (high - low);
                fa = of(a);
            }
            else
            {
                (low, a, fa) = (a, b, fb);
                b = low + golden * (high - low);
                fb = of(b);
            }
        return (low + high) / 2;
    }

    private sealed record Bulk(double[] Values, double From, double To)
    {
        public static Bulk Of(double[] peaks)
        {
            var left = Math.Clamp(Changes / (double)peaks.Length, Contaminated, MostContaminated);
            var (from, to) = (Robust.QuantileOfSorted<double>(peaks, Lowest), Robust.QuantileOfSorted<double>(peaks, 1 - left));
            return new Bulk([.. peaks.Where(p => p > from && p < to)], from, to);
        }

        /// <summary>Negative logarithm of the likelihood.</summary>
        public double Misfit(double power, double fall)
        {
            var (sum, end) = (0.0, Math.Pow(To, power) - Math.Pow(From, power));
            foreach (var value in Values) sum += (power - 1) * Math.Log(value) - (Math.Pow(value, power) - Math.Pow(From, power)) / fall;
            return -sum - Values.Length * (Math.Log(power) - Math.Log(fall) - Math.Log(1 - Math.Exp(-end / fall)));
        }

        /// <summary>The fall whose truncated exponential has the peaks' mean, by bisection: the likelihood's maximum.</summary>
        public double BestFall(double power)
        {
            var (mean, end) = (Values.Average(v => Math.Pow(v, power)) - Math.Pow(From, power), Math.Pow(To, power) - Math.Pow(From, power));
            var (low, high) = (end / 200, 50 * end);
            for (var round = 0; round < 60; round++)
            {
                var middle = Math.Sqrt(low * high);
                if (middle - end / (Math.Exp(end / middle) - 1) < mean) low = middle;
                else high = middle;
            }
            return Math.Sqrt(low * high);
        }
    }
}
