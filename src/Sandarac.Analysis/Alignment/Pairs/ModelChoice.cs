using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Alignment.Pairs;

/// <summary>A model fitted to all _matches, and how it did on _matches it had not seen.</summary>
/// <param name="Model">What may differ.</param>
/// <param name="Map">Fitted to all.</param>
/// <param name="Weights">Each match's say in it, 0 to 1.</param>
/// <param name="HeldOut">What was left of each match when it was held out, target units, right and down.</param>
/// <param name="Losses">Each match's loss when it was held out.</param>
internal sealed record FittedModel(MapModel Model, PlaneMap Map, IReadOnlyList<double> Weights, IReadOnlyList<Point2> HeldOut, IReadOnlyList<double> Losses);

/// <summary>
/// Fits the models one after the other and keeps the simplest whose error on held-out _matches is within one standard error of the best
/// (five-fold cross-validation with the one-standard-error rule: Breiman, Friedman, Olshen and Stone, Classification and Regression Trees, Wadsworth 1984, 3.4.3).
/// </summary>
internal sealed class ModelChoice(LevelFit level, MapFrame frame, Box area, ParallelOptions options)
{
    private const int Folds = 5;
    private readonly IReadOnlyList<Match> _matches = level.Matches;
    private readonly double _blockSize = 2 * level.Level.Side * level.Level.Unit;
    private static readonly MapModel[] Simple = [MapModel.Similarity, MapModel.Affine, MapModel.Homography, MapModel.HomographyWithLens];

    /// <summary>The chosen model; null when the _matches determine none.</summary>
    /// <param name="only">The one model that is wanted; null to choose.</param>
    public FittedModel? Choose(MapModel? only = null)
    {
        var tried = new List<FittedModel>();
        foreach (var model in only is null ? Simple : [only.Value == MapModel.Smooth ? MapModel.HomographyWithLens : only.Value])
            if (Whole(model, null) is { } fitted) tried.Add(fitted);
        if (tried.Count > 0 && only is null or MapModel.Smooth) tried.AddRange(Bent(tried));
        if (only == MapModel.Smooth) tried.RemoveAll(t => t.Model != MapModel.Smooth);
        if (tried.Count == 0) return null;
        var best = tried.MinBy(t => t.Losses.Sum())!;
        return tried.First(t => t == best || WithinOneError(t.Losses, best.Losses));
    }

    private static bool WithinOneError(IReadOnlyList<double> mine, IReadOnlyList<double> best)
    {
        double[] differences = [.. mine.Zip(best, (a, b) => a - b)];
        var mean = differences.Average();
        return mean <= Math.Sqrt(differences.Sum(d => (d - mean) * (d - mean)) / differences.Length / differences.Length);
    }

    private FittedModel? Whole(MapModel model, double? penalty)
    {
        if (Fit(model, penalty, _matches) is not var (map, weights)) return null;
        var held = new Point2[_matches.Count];
        var failed = false;
        Parallel.For(0, Folds, options, fold =>
        {
            if (Fit(model, penalty, [.. _matches.Where(m => FoldOf(m) != fold)]) is not var (without, _))
            {
                failed = true;
                return;
            }
            for (var i = 0; i < held.Length; i++)
                if (FoldOf(_matches[i]) == fold) held[i] = MapFit.Residual(without, _matches[i]);
        });
        if (failed) return null;
        // The loss under which maps are fitted, so that what is chosen is what was sought.
        double[] losses = [.. _matches.Select((m, i) => MapFit.Loss(held[i], m, level.Scale))];
        return new FittedModel(penalty is null ? model : MapModel.Smooth, map, weights, held, losses);
    }

    /// <summary>Bendings of every penalty over the fullest simple model; only the best of them is a rival.</summary>
    private IEnumerable<FittedModel> Bent(IReadOnlyList<FittedModel> simple)
    {
        var under = simple[^1].Model;
        FittedModel[] bent = [.. SmoothFit.Penalties.Select(p => Whole(under, p)).OfType<FittedModel>()];
        return bent.Length == 0 ? [] : [bent.MinBy(b => b.Losses.Sum())!];
    }

    private (PlaneMap Map, IReadOnlyList<double> Weights)? Fit(MapModel model, double? penalty, IReadOnlyList<Match> some)
    {
        if (MapFit.Fit(some, frame, model, level.Map, 4 * level.Level.Unit) is not { } fit) return null;
        if (penalty is not { } p) return (fit.Map, fit.Weights);
        var (map, weights) = (fit.Map, (IReadOnlyList<double>)fit.Weights);
        PlaneMap bent = map;
        for (var round = 0; round < 8; round++)
        {
            weights = [.. some.Select(m => m.Precision / (1 + MapFit.Square(MapFit.Residual(bent, m), m) / (level.Scale * level.Scale)))];
            bent = SmoothFit.Fit(map, some, weights, area, p);
        }
        return (bent, weights);
    }

    /// <summary>Neighbouring patches go to one fold, for they share pixels.</summary>
    private int FoldOf(Match m)
    {
        var (x, y) = ((long)Math.Floor(m.Target.X / _blockSize), (long)Math.Floor(m.Target.Y / _blockSize));
        return (int)(((x + 2 * y) % Folds + Folds) % Folds);
    }
}
