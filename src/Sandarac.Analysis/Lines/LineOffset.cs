using Sandarac.Analysis.Numbers;

namespace Sandarac.Analysis.Lines;

/// <summary>How far lines that two photographs share lie apart in them, pixels. A line shows only what lies across it.</summary>
/// <param name="Across">Median distance across the lines, whichever way, with the half-width of its 95 % interval.</param>
/// <param name="Right">How far the second photograph's lines lie to the right of the first's; null where all lines run one way.</param>
/// <param name="Down">How far below.</param>
/// <param name="Lines">Lines that it rests on.</param>
internal sealed record LineOffset((double Value, double Uncertainty) Across, (double Value, double Uncertainty)? Right, (double Value, double Uncertainty)? Down, int Lines)
{
    private const int FewestLines = 3;
    private const int Rounds = 10;

    /// <summary>Least share that the rarer of two crossing directions has, below which the shift along the lines is not told.</summary>
    private const double LeastCrossing = 0.05;

    /// <summary>Measures each point of the shared lines across its line, and the one shift that explains most of them (Tukey's weights). Intervals by leaving out one line at a time (jackknife): points of one line say nearly the same.</summary>
    /// <param name="shared">Lines of the first photograph that the second shows too.</param>
    /// <param name="second">Line strength of the second.</param>
    /// <param name="shape">What is taken for a line.</param>
    /// <returns>Null with fewer than three lines.</returns>
    public static LineOffset? Of(IReadOnlyList<TracedLine> shared, LineField second, LineShape shape)
    {
        Displacement[][] lines = [.. shared.Select(l => l.Points.Select(p => Displaced(p, second, shape)).OfType<Displacement>().ToArray()).Where(l => l.Length > 0)];
        if (lines.Length < FewestLines) return null;
        var across = Jackknife(lines, points => Robust.Median(points.Select(d => Math.Abs(d.Distance))));
        if (Shift([.. lines.SelectMany(l => l)]) is null || lines.Select((_, k) => Shift(Without(lines, k))).Any(s => s is null)) return new LineOffset(across, null, null, lines.Length);
        return new LineOffset(across, Jackknife(lines, points => Shift(points)!.Value.X), Jackknife(lines, points => Shift(points)!.Value.Y), lines.Length);
    }

    private readonly record struct Displacement(double Cos, double Sin, double Distance);

    private static Displacement[] Without(Displacement[][] lines, int left) => [.. lines.Where((_, k) => k != left).SelectMany(l => l)];

    private static (double Value, double Uncertainty) Jackknife(Displacement[][] lines, Func<Displacement[], double> value)
    {
        double[] without = [.. lines.Select((_, k) => value(Without(lines, k)))];
        var mean = without.Average();
        return (value([.. lines.SelectMany(l => l)]), 1.96 * Math.Sqrt((lines.Length - 1.0) / lines.Length * without.Sum(w => (w - mean) * (w - mean))));
    }

    /// <summary>Where the second photograph is strongest along a point's normal, within a line's width; null where that is at the end, or without data.</summary>
    private static Displacement? Displaced(LinePoint point, LineField second, LineShape shape)
    {
        var ((sin, cos), reach) = (Math.SinCos(point.Normal), (int)Math.Ceiling(shape.Width));
        var (x, y) = (point.Pixel % second.Strength.Width, point.Pixel / second.Strength.Width);
        double[] strength = [.. Enumerable.Range(-reach, 2 * reach + 1).Select(k => (double)LinePoints.Between(second.Strength, x + k * cos, y + k * sin))];
        if (strength.Any(double.IsNaN)) return null;
        var best = Array.IndexOf(strength, strength.Max());
        if (best == 0 || best == strength.Length - 1) return null;
        var (before, here, after) = (strength[best - 1], strength[best], strength[best + 1]);
        var first = (point.X - x - 0.5) * cos + (point.Y - y - 0.5) * sin;
        return new Displacement(cos, sin, best - reach + 0.5 * (after - before) / (2 * here - before - after) - first);
    }

    /// <summary>The shift whose parts across the lines are nearest to what was measured; null where too few lines cross the others.</summary>
    private static (double X, double Y)? Shift(Displacement[] points)
    {
        var (weights, x, y) = (Enumerable.Repeat(1.0, points.Length).ToArray(), 0.0, 0.0);
        for (var round = 0; round < Rounds; round++)
        {
            var (cc, cs, ss, cd, sd) = (0.0, 0.0, 0.0, 0.0, 0.0);
            for (var k = 0; k < points.Length; k++)
            {
                var (p, w) = (points[k], weights[k]);
                (cc, cs, ss) = (cc + w * p.Cos * p.Cos, cs + w * p.Cos * p.Sin, ss + w * p.Sin * p.Sin);
                (cd, sd) = (cd + w * p.Cos * p.Distance, sd + w * p.Sin * p.Distance);
            }
            var rarer = (cc + ss - Math.Sqrt((cc - ss) * (cc - ss) + 4 * cs * cs)) / 2;
            if (!(rarer > LeastCrossing * (cc + ss))) return null;
            var determinant = cc * ss - cs * cs;
            (x, y) = ((ss * cd - cs * sd) / determinant, (cc * sd - cs * cd) / determinant);
            double[] left = [.. points.Select(p => p.Distance - p.Cos * x - p.Sin * y)];
            var sigma = Robust.Sigma(left);
            if (sigma < 1e-9) break;
            for (var k = 0; k < weights.Length; k++) weights[k] = Robust.Biweight(left[k], sigma);
        }
        return (x, y);
    }
}
