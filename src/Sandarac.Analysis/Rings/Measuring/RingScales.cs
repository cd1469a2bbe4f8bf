using MathNet.Numerics.RootFinding;

namespace Sandarac.Analysis.Rings.Measuring;

/// <summary>
/// A profile in three smoothings, and where its steps lay before all blur. The steepest place of a step that a Gaussian blurs lies off by v (s2 - s1) / A: v the variance of the whole blur, s1 and s2 the slopes before and after the step, A its height.
/// Wood darkens up to a ring's end, so s1 is steep where the ring is narrow, and its end seems to lie in the next ring. How far the place moves from one smoothing to the next tells (s2 - s1) / A, and from there the way back to no blur at all. Ours.
/// </summary>
internal sealed class RingScales
{
    /// <summary>Bounds of the photograph's own variance, in parts of what one smoothing adds; a photograph less blurred than the least falls from one smoothing to the next by more than half as much again.</summary>
    private const double LeastParts = 1e-3, MostParts = 100, LeastBlurred = 1.5;

    private const double Reach = 4, ScanStep = 0.5;
    private const int Refinements = 8;

    private readonly double[] _profile;
    private readonly double _added;

    /// <summary>Measures the photograph's own blur on all steps.</summary>
    /// <param name="profile">As the photograph has it.</param>
    /// <param name="sigma">Standard deviation of the first smoothing, columns; the second has twice its variance, the third three times.</param>
    /// <param name="steps">Columns near which a step lies.</param>
    public RingScales(double[] profile, double sigma, IReadOnlyList<double> steps)
    {
        (_profile, _added) = (profile, sigma * sigma);
        OwnVariance = MeasureOwn(steps);
    }

    /// <summary>Variance of the photograph's own blur, of lens and sensor, of reading between pixels, of boundaries that are not straight; columns squared.</summary>
    public double OwnVariance { get; }

    /// <summary>Where the step near a column lay, the slopes beside it taken as straight; and how much farther were they taken as bent, which adds a term in v^1.5.</summary>
    public (double Along, double Bend) Place(double near)
    {
        double[] p = [.. Enumerable.Range(1, 3).Select(k => Steepest(k, near))], v = [.. Enumerable.Range(1, 3).Select(k => OwnVariance + k * _added)], w = [.. v.Select(x => Math.Pow(x, 1.5))];
        double Back(double bent) => p[0] - v[0] * (p[1] - p[0] - bent * (w[1] - w[0])) / _added - bent * w[0];
        return (Back(0), Back((p[2] - 2 * p[1] + p[0]) / (w[2] - 2 * w[1] + w[0])) - Back(0));
    }

    /// <summary>A step's steepness goes with its variance as A / sqrt(2 pi v), and what slopes beside it add is the same in all smoothings: the falls from one to the next tell v.</summary>
    private double MeasureOwn(IReadOnlyList<double> steps)
    {
        double Steepness(int smoothing) => steps.Sum(s => Derivative(1, smoothing, Steepest(smoothing, s)));
        var (first, second, third) = (Steepness(1), Steepness(2), Steepness(3));
        var falls = (first - second) / (second - third);
        double Beyond(double parts) => (1 / Math.Sqrt(parts + 1) - 1 / Math.Sqrt(parts + 2)) / (1 / Math.Sqrt(parts + 2) - 1 / Math.Sqrt(parts + 3)) - falls;
        return _added * (Brent.TryFindRoot(Beyond, LeastParts, MostParts, 1e-6, 100, out var parts) ? parts : falls > LeastBlurred ? LeastParts : MostParts);
    }

    /// <summary>Where the smoothed profile rises most steeply near a column: looked for in steps, then where its second derivative is none.</summary>
    private double Steepest(int smoothing, double near)
    {
        var reach = Math.Max(2, Math.Sqrt(_added));
        var at = Enumerable.Range(0, (int)(2 * reach / ScanStep) + 1).Select(k => near - reach + k * ScanStep).MaxBy(x => Derivative(1, smoothing, x));
        for (var k = 0; k < Refinements && Derivative(3, smoothing, at) is < 0 and var bend; k++) at -= Math.Clamp(Derivative(2, smoothing, at) / bend, -ScanStep, ScanStep);
        return at;
    }

    /// <summary>A derivative of the smoothed profile between its columns: the samples weighted by that derivative of the Gaussian; beyond the ends the last sample goes on.</summary>
    private double Derivative(int order, int smoothing, double at)
    {
        var (variance, sum) = (smoothing * _added, 0.0);
        for (var i = (int)Math.Ceiling(at - Reach * Math.Sqrt(variance)); i <= at + Reach * Math.Sqrt(variance); i++)
        {
            var u = at - i;
            var factor = order switch { 1 => -u, 2 => u * u / variance - 1, _ => u * (3 - u * u / variance) / variance } / variance;
            sum += _profile[Math.Clamp(i, 0, _profile.Length - 1)] * factor * Math.Exp(-u * u / (2 * variance)) / Math.Sqrt(2 * Math.PI * variance);
        }
        return sum;
    }
}
