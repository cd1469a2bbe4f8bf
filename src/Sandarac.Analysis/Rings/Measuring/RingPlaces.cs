using MathNet.Numerics.Distributions;

namespace Sandarac.Analysis.Rings.Measuring;

/// <summary>Where boundaries lie and how surely: the trimmed mean of all lanes tells the place, and what it would be without each lane in turn tells its spread (the jackknife; Tukey, Annals of Mathematical Statistics 29 (1958) 614, from memory).</summary>
internal sealed class RingPlaces
{
    /// <summary>A trimmed mean's spread is as well known as that of as many values as it counts (Tukey and McLaughlin, Sankhya A 25 (1963) 331, from memory).</summary>
    private static readonly double Within95 = StudentT.InvCDF(0, 1, RingProfile.Counting - 1, 0.975);

    private readonly RingScales _all;
    private readonly RingScales[] _without;

    /// <summary>Measures the photograph's blur, and then smooths at least as broadly: on the way back from a finer smoothing noise would grow.</summary>
    /// <param name="profile">The lanes.</param>
    /// <param name="steps">Columns near which boundaries lie.</param>
    public RingPlaces(RingProfile profile, IReadOnlyList<double> steps)
    {
        var middle = RingProfile.Middle(profile.Raw);
        var sigma = Math.Max(profile.Sigma, Math.Sqrt(new RingScales(middle, profile.Sigma, steps).OwnVariance));
        _all = new RingScales(middle, sigma, steps);
        _without = [.. profile.Raw.Select(left => new RingScales(RingProfile.Middle([.. profile.Raw.Where(lane => lane != left)]), sigma, steps))];
    }

    /// <summary>The boundary near a column and the half-width of its 95 % interval, columns: how lanes differ, and what bent slopes would change.</summary>
    public (double Along, double Uncertainty) Of(double near)
    {
        double[] places = [.. _without.Select(w => w.Place(near).Along)];
        var ((along, bend), mean, n) = (_all.Place(near), places.Average(), places.Length);
        var random = Within95 * Math.Sqrt((n - 1.0) / n * places.Sum(p => (p - mean) * (p - mean)));
        return (along, Math.Sqrt(random * random + bend * bend));
    }
}
