using MathNet.Numerics.Distributions;

namespace Sandarac.Studio.Treatment;

/// <summary>A figure that lies ahead.</summary>
/// <param name="Middle">As likely more as less.</param>
/// <param name="Low">Lower limit of the 95 % prediction interval.</param>
/// <param name="High">Upper limit.</param>
public sealed record Prediction(double Middle, double Low, double High);

/// <summary>
/// How much effort a remaining area takes, from stretches of work that are on record. Paces (area for an effort) are taken as log-normal: of the logarithms y the mean and the standard deviation s are known from n stretches only, so that limits are those
/// of Student's t with n - 1 degrees. One stretch ahead (m = 1) has the prediction interval for one further observation, mean +- t s sqrt(1 + 1/n) (G. J. Hahn, W. Q. Meeker, Statistical Intervals, 1991, ch. 4).
/// Several ahead go at their mean pace, which is again about log-normal with the variance ln(1 + (exp(s^2) - 1)/m) (L. F. Fenton, The sum of log-normal probability distributions, IRE Trans. Commun. Syst. 8, 1960);
/// that s is an estimate itself adds as in Cox's interval for the mean of a log-normal distribution (U. Olsson, J. Statistics Education 13(1), 2005). Sources recalled, not at hand; how often the intervals hold is simulated in the tests.
/// </summary>
internal static class PaceInterval
{
    /// <summary>Fewer say nothing of how much paces differ.</summary>
    public const int Fewest = 3;

    private const double Level = 0.975;

    /// <summary>The effort for an area.</summary>
    /// <param name="work">Stretches on record: what each covered and what effort it took, both above 0; at least <see cref="Fewest"/>.</param>
    /// <param name="remaining">The area that is left, in the same unit.</param>
    /// <param name="isOneStretch">Whether the whole rest goes at one pace, as when each stretch on record was a whole step of its own.</param>
    public static Prediction Of(IReadOnlyList<(double Area, double Effort)> work, double remaining, bool isOneStretch)
    {
        var n = work.Count;
        double[] y = [.. work.Select(w => Math.Log(w.Area / w.Effort))];
        var mean = y.Average();
        var variance = y.Sum(v => (v - mean) * (v - mean)) / (n - 1);
        var m = isOneStretch ? 1 : Ahead(work, remaining);
        var ofMean = Math.Log(1 + (Math.Exp(variance) - 1) / m);
        var middle = mean + (variance - ofMean) / 2;
        // How much the middle moves with the variance, which is only estimated; nothing when one stretch is ahead.
        var slope = (1 - Math.Exp(variance - ofMean) / m) / 2;
        var off = StudentT.InvCDF(0, 1, n - 1, Level) * Math.Sqrt(ofMean + variance / n + slope * slope * 2 * variance * variance / (n - 1));
        return new Prediction(remaining * Math.Exp(-middle), remaining * Math.Exp(-middle - off), remaining * Math.Exp(-middle + off));
    }

    /// <summary>How many stretches like those on record are ahead; where they differ in length, as many of equal length as vary as much.</summary>
    private static double Ahead(IReadOnlyList<(double Area, double Effort)> work, double remaining)
    {
        var (area, effort, squares) = (work.Sum(w => w.Area), work.Sum(w => w.Effort), work.Sum(w => w.Effort * w.Effort));
        return Math.Max(1, remaining * effort / area * effort / squares);
    }
}
