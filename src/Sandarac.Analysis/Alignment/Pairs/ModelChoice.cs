using System.Collections.Concurrent;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Alignment.Pairs;

/// <summary>A model fitted to all matches, and how it did on matches it had not seen.</summary>
/// <param name="Model">What may differ.</param>
/// <param name="Map">Fitted to all.</param>
/// <param name="HeldOut">What was left of each match when it was held out, target units, right and down.</param>
/// <param name="Losses">Each match's loss when it was held out.</param>
internal sealed record FittedModel(MapModel Model, PlaneMap Map, IReadOnlyList<Point2> HeldOut, IReadOnlyList<double> Losses);

/// <summary>
/// Fits the models one after the other and keeps the simplest whose error on held-out matches is within one standard error of the best
/// (five-fold cross-validation with the one-standard-error rule: Breiman, Friedman, Olshen and Stone, Classification and Regression Trees, Wadsworth 1984, 3.4.3).
/// </summary>
internal sealed class ModelChoice(LevelFit level, MapFrame frame, Box area, ParallelOptions options)
{
    private const int Folds = 5;
    private const int FewestToBend = 40;
    private const double CloseScales = 3;
    private const double LeastKept = 0.8;
    private const double LeastGained = 0.25;
    private readonly IReadOnlyList<Match> _matches = level.Matches;
    private readonly ConcurrentDictionary<(MapModel, int), MapFitResult?> _stiff = new();
    private readonly double _blockSize = 2 * level.Level.Side * level.Level.Unit;
    private static readonly MapModel[] Simple = [MapModel.Similarity, MapModel.Affine, MapModel.Homography, MapModel.HomographyWithLens];

    /// <summary>The chosen model; null when the matches determine none.</summary>
    /// <param name="only">The one model that is wanted; null to choose.</param>
    public FittedModel? Choose(MapModel? only = null)
    {
        var tried = new List<FittedModel>();
        // Through a known lens a homography is all that a homography with lens is.
        var simple = frame.Known is null ? Simple : Simple[..^1];
        foreach (var model in only is null or MapModel.Smooth ? simple : [only.Value])
            if (Whole(model, null) is { } fitted) tried.Add(fitted);
        if (tried.Count == 0) return null;
        var stiff = Simplest(tried);
        if (only is not (null or MapModel.Smooth)) return stiff;
        if (only is null && _matches.Count < FewestToBend) return stiff;
        // The bending goes over the stiff model that was chosen: a fuller one would run wild where no patches hold it.
        var bent = SmoothFit.Penalties.Select(p => Whole(stiff.Model, p)).OfType<FittedModel>().MinBy(b => b.Losses.Sum());
        if (only is MapModel.Smooth) return bent;
        return bent is not null && Earns(stiff, bent) ? Simplest([stiff, bent]) : stiff;
    }

    /// <summary>
    /// Whether a bending leaves the patches that agreed closely without it where they are, and brings many more to agree as closely. A true one does both;
    /// one that follows the shading of relief, which moves with the lamp, gains a few and loses those beside them.
    /// </summary>
    private bool Earns(FittedModel stiff, FittedModel bent)
    {
        // A bending all over the picture leaves hardly a patch close without it: what is close, its own closest tenth then says.
        var scale = Math.Min(level.Scale, Numbers.Robust.Quantile(_matches.Select((m, i) => Math.Sqrt(MapFit.Square(bent.HeldOut[i], m))), 0.1) / MapFit.ClosestTenth);
        bool IsClose(FittedModel fitted, int i) => MapFit.Square(fitted.HeldOut[i], _matches[i]) <= Square(CloseScales * scale);
        var close = Enumerable.Range(0, _matches.Count).Where(i => IsClose(stiff, i)).ToList();
        var gained = Enumerable.Range(0, _matches.Count).Count(i => IsClose(bent, i)) - close.Count;
        return close.Count(i => IsClose(bent, i)) >= LeastKept * close.Count && gained >= LeastGained * _matches.Count;
    }

    private static double Square(double v) => v * v;

    private static FittedModel Simplest(IReadOnlyList<FittedModel> tried)
    {
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
        if (Fit(model, penalty, -1) is not { } map) return null;
        var held = new Point2[_matches.Count];
        var failed = false;
        Parallel.For(0, Folds, options, fold =>
        {
            if (Fit(model, penalty, fold) is not { } without)
            {
                failed = true;
                return;
            }
            for (var i = 0; i < held.Length; i++)
                if (FoldOf(i) == fold) held[i] = MapFit.Residual(without, _matches[i]);
        });
        if (failed) return null;
        // The loss under which maps are fitted, so that what is chosen is what was sought.
        double[] losses = [.. _matches.Select((m, i) => MapFit.Loss(held[i], m, level.Scale))];
        return new FittedModel(penalty is null ? model : MapModel.Smooth, map, held, losses);
    }

    private PlaneMap? Fit(MapModel model, double? penalty, int fold)
    {
        IReadOnlyList<Match> some = fold < 0 ? _matches : [.. _matches.Where((_, i) => FoldOf(i) != fold)];
        var stiff = StiffFit(model, some, fold)?.Map;
        if (stiff is null || penalty is not { } p) return stiff;
        PlaneMap bent = stiff;
        for (var round = 0; round < 8; round++)
        {
            double[] weights = [.. some.Select(m => m.Precision / (1 + MapFit.Square(MapFit.Residual(bent, m), m) / (level.Scale * level.Scale)))];
            if (SmoothFit.Fit(stiff, some, weights, area, p) is not { } next) return null;
            bent = next;
        }
        return bent;
    }

    /// <summary>The stiff map of a fold, -1 for all: every bending over it begins there.</summary>
    private MapFitResult? StiffFit(MapModel model, IReadOnlyList<Match> some, int fold) =>
        _stiff.GetOrAdd((model, fold), _ => MapFit.Fit(some, frame, model, level.Map, 4 * level.Level.Unit, sample: false));

    /// <summary>Neighbouring patches go to one fold, for they share pixels; where there are few, each counts alone.</summary>
    private int FoldOf(int i)
    {
        if (_matches.Count < 60) return i % Folds;
        var m = _matches[i];
        var (x, y) = ((long)Math.Floor(m.Target.X / _blockSize), (long)Math.Floor(m.Target.Y / _blockSize));
        return (int)(((x + 2 * y) % Folds + Folds) % Folds);
    }
}
