using MathNet.Numerics.LinearAlgebra;
using Sandarac.Analysis.Numbers;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Alignment.Pairs;

/// <summary>A map fitted to matches.</summary>
/// <param name="Map">The map.</param>
/// <param name="Weights">Each match's say in it, 0 to 1.</param>
/// <param name="Scale">Standard deviation of the closest matches in each direction, target units.</param>
internal sealed record MapFitResult(HomographyMap Map, double[] Weights, double Scale);

/// <summary>
/// Fits a map to matches: Gauss-Newton on the residuals in target units, each weighed by how sharply its match is placed in each direction,
/// and iteratively reweighted by Tukey's biweight so that wrong matches lose their say (Holland and Welsch, Communications in Statistics A6 (1977) 813).
/// </summary>
internal sealed class MapFit
{
    private const int Rounds = 16;
    private const int LeastForTightening = 60;
    private const int Samples = 500;

    /// <summary>A tenth of the lengths of a two-dimensional normal deviation lies within so many standard deviations.</summary>
    public const double ClosestTenth = 0.459;

    private readonly IReadOnlyList<Match> _matches;
    private readonly MapFrame _frame;
    private readonly MapModel _model;

    private MapFit(IReadOnlyList<Match> matches, MapFrame frame, MapModel model) => (_matches, _frame, _model) = (matches, frame, model);

    /// <summary>Fits.</summary>
    /// <param name="matches">At least half as many as the model has numbers.</param>
    /// <param name="frame">Size of the moving photograph.</param>
    /// <param name="model">What may differ; <see cref="MapModel.Smooth"/> is fitted as homography with lens.</param>
    /// <param name="start">Where to begin.</param>
    /// <param name="gate">Matches farther off than this at the start, in target units, have no say at first.</param>
    /// <param name="sample">Whether a closer agreement than that about the start is looked for.</param>
    /// <returns>The map, and each match's weight, 0 to 1; null when the matches do not determine the model.</returns>
    public static MapFitResult? Fit(IReadOnlyList<Match> matches, MapFrame frame, MapModel model, HomographyMap start, double gate, bool sample = true)
    {
        if (2 * matches.Count < frame.Free(model) + 2) return null;
        var fit = new MapFit(matches, frame, model);
        var p = frame.Parameters(start, model);
        var weights = fit.Weights(start, gate / 4.685);
        for (var round = 0; round < Rounds; round++)
        {
            if (!fit.TryStep(p, weights)) return null;
            var map = frame.Map(p, model);
            // The gate closes step by step on the spread of the closer ones, but never suddenly.
            var sigma = fit.Spread(map);
            gate = Math.Max(4.685 * sigma, 0.5 * gate);
            weights = fit.Weights(map, gate / 4.685);
            if (weights.Count(w => w > 0) * 2 < frame.Free(model) + 2) return null;
        }
        var whole = frame.Map(p, model);
        return fit.TryTighten([start, whole], sample) ?? new MapFitResult(whole, weights, fit.Scale(whole));
    }

    /// <summary>
    /// Where some patches agree far more closely than the rest, as paint edges do beside the shading of relief, which a lamp draws to one side, the closest
    /// agreement counts: the least sum of log(1 + d^2 / e^2), Cauchy's loss, with e from the closest tenth, begun from the best of many small samples
    /// (Torr and Zisserman, Computer Vision and Image Understanding 78 (2000) 138).
    /// </summary>
    private MapFitResult? TryTighten(IReadOnlyList<HomographyMap> starts, bool sample)
    {
        if (_matches.Count < LeastForTightening || _model == MapModel.Similarity || _model == MapModel.Affine) return null;
        var p = _frame.Parameters(TightSample.Best(_matches, starts, starts.Min(Scale), sample ? Samples : 0), _model);
        for (var round = 0; ; round++)
        {
            var now = _frame.Map(p, _model);
            var scale = Scale(now);
            double[] weights = [.. _matches.Select(m => Cauchy(Distance(now, m), scale))];
            if (round == Rounds) return new MapFitResult(now, weights, scale);
            if (!TryStep(p, weights)) return null;
        }
    }

    /// <summary>
    /// A tenth of the lengths of a two-dimensional normal deviation lies within 0.459 standard deviations, half within 1.1774. Of few matches the closest
    /// tenth is one or two, close by accident: there the half is taken.
    /// </summary>
    private double Scale(PlaneMap map)
    {
        var lengths = _matches.Select(m => Distance(map, m));
        return Math.Max(_matches.Count < LeastForTightening ? Robust.Quantile(lengths, 0.5) / 1.1774 : Robust.Quantile(lengths, 0.1) / ClosestTenth, 1e-9 * _frame.Unit);
    }

    /// <summary>What a match costs: log(1 + d^2 / scale^2), no more beyond four scales, times its precision. Those that do not agree closely do not bend the map.</summary>
    public static double Loss(Point2 residual, Match m, double scale) => m.Precision * Math.Log(1 + Math.Min(16, Square(residual, m) / (scale * scale)));

    private static double Cauchy(double distance, double scale) => distance > 12 * scale ? 0 : 1 / (1 + distance * distance / (scale * scale));

    /// <summary>Least squares without suspicion, from nothing: the stiffest model first, each the beginning of the next.</summary>
    /// <returns>Null when the matches do not determine the model.</returns>
    public static HomographyMap? LeastSquares(IReadOnlyList<Match> matches, int width, int height, MapModel model)
    {
        var (map, ones) = (Upright(matches), matches.Select(_ => 1.0).ToArray());
        for (var m = MapModel.Similarity; m <= model; m++)
        {
            // Two pairs cannot tell a mirrored photograph from a turned one; three can, and the affine step finds it.
            var frame = MapFrame.For(width, height, [.. matches.Select(x => x.Target)], map);
            if (2 * matches.Count < frame.Free(m)) break;
            var (fit, p) = (new MapFit(matches, frame, m), frame.Parameters(map, m));
            for (var step = 0; step < 30; step++)
                if (!fit.TryStep(p, ones)) return null;
            map = frame.Map(p, m);
        }
        return matches.All(x => double.IsFinite(Length(Residual(map, x)))) ? map : null;
    }

    /// <summary>An upright map of about the right size.</summary>
    private static HomographyMap Upright(IReadOnlyList<Match> matches)
    {
        Point2 Middle(Func<Match, Point2> of) => new(matches.Average(m => of(m).X), matches.Average(m => of(m).Y));
        var (t, q) = (Middle(m => m.Target), Middle(m => m.Moving));
        var scale = matches.Sum(m => m.Target.DistanceTo(t)) / Math.Max(1e-12, matches.Sum(m => m.Moving.DistanceTo(q)));
        return new HomographyMap([scale, 0, t.X - scale * q.X, 0, scale, t.Y - scale * q.Y, 0, 0, 1]);
    }

    /// <summary>What is left of a match under a map, target units.</summary>
    public static Point2 Residual(PlaneMap map, Match match)
    {
        var at = map.ToPlane(match.Moving);
        return new Point2(at.X - match.Target.X, at.Y - match.Target.Y);
    }

    public static double Length(Point2 p) => Math.Sqrt(p.X * p.X + p.Y * p.Y);

    /// <summary>Length of what is left, target units, in which the direction along which a match slides counts little.</summary>
    public static double Distance(PlaneMap map, Match m) => Math.Sqrt(Square(Residual(map, m), m));

    /// <summary>Its square for a given residual.</summary>
    public static double Square(Point2 r, Match m) => (m.Kxx * r.X * r.X + 2 * m.Kxy * r.X * r.Y + m.Kyy * r.Y * r.Y) * 2 / (m.Kxx + m.Kyy);

    private double[] Weights(PlaneMap map, double sigma) => [.. _matches.Select(m => Distance(map, m) is var d && double.IsFinite(d) ? Robust.Biweight(d, sigma) : 0)];

    /// <summary>Spread of the residuals' components, from the closest quarter: a quarter of the lengths of a two-dimensional normal deviation lies within 0.7585 standard deviations.</summary>
    private double Spread(PlaneMap map) => Robust.Quantile(_matches.Select(m => Distance(map, m)), 0.25) / 0.7585;

    /// <summary>A lens's centre lies near the frame's: without distortion nothing else would hold it.</summary>
    private void HoldCentre(double[] p, Matrix<double> normal, Vector<double> gradient)
    {
        // Two hundredths of the half diagonal are worth one match at its own spread.
        var spread = Math.Max(Scale(_frame.Map(p, _model)), 1e-4 * _frame.Unit);
        var hold = spread * spread / (0.02 * 0.02);
        for (var a = 10; a < 12; a++)
        {
            normal[a, a] += hold;
            gradient[a] += hold * p[a];
        }
    }

    private bool TryStep(double[] p, double[] weights)
    {
        var n = p.Length;
        var (normal, gradient) = (Matrix<double>.Build.Dense(n, n), Vector<double>.Build.Dense(n));
        var rows = new double[2, n];
        for (var i = 0; i < _matches.Count; i++)
        {
            if (weights[i] <= 0) continue;
            var m = _matches[i];
            var r = _frame.Residual(p, _model, m, rows);
            // Directions in which the match slides have little say; the trace is held at 2 so that a strong match does not outvote all others.
            var trace = (m.Kxx + m.Kyy) / 2 / m.Precision;
            var (kxx, kxy, kyy) = (weights[i] * m.Kxx / trace, weights[i] * m.Kxy / trace, weights[i] * m.Kyy / trace);
            for (var a = 0; a < n; a++)
            {
                var (ax, ay) = (kxx * rows[0, a] + kxy * rows[1, a], kxy * rows[0, a] + kyy * rows[1, a]);
                gradient[a] += ax * r.X + ay * r.Y;
                for (var b = 0; b <= a; b++) normal[a, b] += ax * rows[0, b] + ay * rows[1, b];
            }
        }
        if (n == 12) HoldCentre(p, normal, gradient);
        for (var a = 0; a < n; a++)
            for (var b = 0; b < a; b++) normal[b, a] = normal[a, b];
        for (var a = 0; a < n; a++) normal[a, a] *= 1 + 1e-9;
        var step = normal.Solve(-gradient);
        if (step.Any(v => !double.IsFinite(v))) return false;
        for (var a = 0; a < n; a++) p[a] += step[a];
        return true;
    }
}
