using MathNet.Numerics.Distributions;
using MathNet.Numerics.LinearAlgebra;
using Sandarac.Analysis.Numbers;

namespace Sandarac.Analysis.Alignment.Rulers;

/// <summary>
/// Where tick n stands along the line: x = (a n + b) / (1 + c n) + d n^3. The fraction is the picture of an evenly divided line (Hartley and Zisserman, Multiple View Geometry,
/// 2nd ed. (2004), 2.5), the cube what a lens adds; c and d are 0 unless the ticks show otherwise.
/// </summary>
/// <param name="A">Distance of the ticks at n = 0, pixels.</param>
/// <param name="B">Place of n = 0, pixels.</param>
/// <param name="C">Foreshortening, per tick.</param>
/// <param name="D">Distortion, pixels.</param>
internal sealed record TickFit(double A, double B, double C, double D)
{
    /// <summary>Parts that are left out in turn for the uncertainty.</summary>
    private const int Parts = 16;

    /// <summary>Half-width of the 95 % interval of the distance of ticks at the middle, as a share of it.</summary>
    public double Uncertainty { get; private init; }

    /// <summary>Half-width of the 95 % interval of <see cref="Foreshortening"/>.</summary>
    public double ForeshorteningUncertainty { get; private init; }

    /// <summary>Distances of the ticks used from where they should stand, pixels.</summary>
    public double[] Residuals { get; private init; } = [];

    /// <summary>Place of a tick; n is counted from the middle one.</summary>
    public double Along(double n) => (A * n + B) / (1 + C * n) + D * n * n * n;

    /// <summary>Distance of ticks there, pixels.</summary>
    public double Distance(double n) => (A - B * C) / ((1 + C * n) * (1 + C * n)) + 3 * D * n * n;

    /// <summary>By how much a division is smaller so many ticks after the middle than as many before it, as a share.</summary>
    public double Foreshortening(double half) => 1 - Distance(half) / Distance(-half);

    /// <summary>Fits places of consecutive ticks; a term is kept when its 95 % interval leaves out 0.</summary>
    public static TickFit Of(double[] along)
    {
        var (half, foreshortening) = ((along.Length - 1) / 2.0, 0.0);
        for (var terms = 4; ; terms--)
        {
            var fit = Best(along, -1, terms);
            TickFit[] parts = [.. Enumerable.Range(0, Parts).Select(p => Best(along, p, terms))];
            if (terms > 2) foreshortening = Spread(parts, f => f.Foreshortening(half));
            if ((terms == 4 && Math.Abs(fit.D) <= Spread(parts, f => f.D)) || (terms == 3 && Math.Abs(fit.C) <= Spread(parts, f => f.C))) continue;
            double[] off = Off(along, fit);
            var sigma = Math.Max(1e-9, Robust.Sigma(off));
            return fit with
            {
                Uncertainty = Spread(parts, f => f.Distance(0)) / Math.Abs(fit.Distance(0)), ForeshorteningUncertainty = foreshortening,
                Residuals = [.. off.Where(r => Robust.Biweight(r, sigma) > 0)],
            };
        }
    }

    /// <summary>Least squares with Tukey's biweight, one of the parts left out (-1 for none).</summary>
    private static TickFit Best(double[] along, int without, int terms)
    {
        double[] kept = [.. along.Select((_, i) => (long)i * Parts / along.Length == without ? 0.0 : 1)];
        var (weights, fit) = (kept, new TickFit(1, 0, 0, 0));
        for (var i = 0; i < 8; i++)
        {
            fit = Solve(along, weights, fit.C, terms);
            var off = Off(along, fit);
            var sigma = Math.Max(1e-9, Robust.Sigma(off));
            weights = [.. off.Select((r, k) => kept[k] * Robust.Biweight(r, sigma))];
        }
        return fit;
    }

    private static double[] Off(double[] along, TickFit fit) => [.. along.Select((x, k) => x - fit.Along(k - (along.Length - 1) / 2.0))];

    /// <summary>a n + b - c n x + d n^3 (1 + c n) = x, each equation divided by 1 + c n so that what is made small is the distance in the picture.</summary>
    private static TickFit Solve(double[] along, double[] weights, double c, int terms)
    {
        var half = (along.Length - 1) / 2.0;
        var size = Math.Max(1, Math.Abs(along[^1] - along[0]) / 2);
        var normal = Matrix<double>.Build.Dense(terms, terms);
        var right = Vector<double>.Build.Dense(terms);
        for (var k = 0; k < along.Length; k++)
        {
            var (n, x) = ((k - half) / half, along[k] / size);
            var depth = 1 + c * half * n;
            double[] row = [n, 1, -n * x, n * n * n * depth];
            for (var i = 0; i < terms; i++)
            {
                right[i] += weights[k] / (depth * depth) * row[i] * x;
                for (var j = 0; j < terms; j++) normal[i, j] += weights[k] / (depth * depth) * row[i] * row[j];
            }
        }
        var s = normal.Solve(right);
        return new TickFit(s[0] * size / half, s[1] * size, terms > 2 ? s[2] / half : 0, terms > 3 ? s[3] * size / (half * half * half) : 0);
    }

    /// <summary>Half-width of the 95 % interval by the jackknife (Tukey 1958).</summary>
    private static double Spread(TickFit[] parts, Func<TickFit, double> of)
    {
        double[] values = [.. parts.Select(of)];
        var mean = values.Average();
        return StudentT.InvCDF(0, 1, Parts - 1, 0.975) * Math.Sqrt((Parts - 1.0) / Parts * values.Sum(v => (v - mean) * (v - mean)));
    }
}
