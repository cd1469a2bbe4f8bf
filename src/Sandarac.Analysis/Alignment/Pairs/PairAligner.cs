using System.Diagnostics;
using System.Globalization;
using Sandarac.Analysis.Numbers;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Alignment.Pairs;

/// <summary>Where a photograph is to be aligned.</summary>
/// <param name="Reference">The photograph that stays.</param>
/// <param name="Map">Where it lies on the target; the identity to align to its own pixels.</param>
/// <param name="Area">The part of the target that it shows.</param>
public sealed record AlignmentTarget(PairImage Reference, PlaneMap Map, Box Area)
{
    /// <summary>A reference in its own pixels.</summary>
    public static AlignmentTarget OfPixels(PairImage reference) =>
        new(reference, new HomographyMap([1, 0, 0, 0, 1, 0, 0, 0, 1]), new Box(0, 0, reference.File.Width, reference.File.Height));
}

/// <summary>How to align.</summary>
/// <param name="Model">The model that is wanted; null to let held-out patches choose.</param>
/// <param name="LikelyScales">Target units per moving pixel that would be no surprise, from resolution tags or a former alignment.</param>
/// <param name="Start">Where it lies nearly; null to search.</param>
/// <param name="Depth">How far the search goes when the likely places or the beginning fail.</param>
/// <param name="LeastOverlap">Least share of one of the two that the other shows.</param>
/// <param name="IsPart">Whether it shows a part, at a scale that is probably one of the likely ones: its number of pixels then says nothing of its size.</param>
public sealed record PairOptions(MapModel? Model = null, IReadOnlyList<double>? LikelyScales = null, HomographyMap? Start = null, SearchDepth Depth = SearchDepth.Everywhere, double LeastOverlap = PairAligner.LeastOverlap, bool IsPart = false);

/// <summary>
/// Aligns a photograph in any light to a reference: a search over all placements at low resolution, patches from coarse to fine, then the model that held-out
/// patches ask for. Reads both by windows: memory does not grow with their size. The same result whatever the number of threads.
/// </summary>
public static class PairAligner
{
    /// <summary>More false alarms than this, as a decimal logarithm, is no agreement.</summary>
    public const double MostLog10FalseAlarms = -4;

    /// <summary>Least share of sixteenths of the overlap in which patches must agree.</summary>
    public const double LeastSpread = 0.5;

    /// <summary>Least share of patches that must agree.</summary>
    public const double LeastAgreeing = 0.25;

    /// <summary>Share of one of the two photographs that the other must show.</summary>
    public const double LeastOverlap = 0.3;

    /// <summary>A given beginning is trusted to a few dozen pixels.</summary>
    private const double StartUnits = 8;

    /// <summary>Fewest pixels on the shorter side.</summary>
    public const int LeastSide = 64;

    /// <summary>A patch agrees when it lies this near, in pixels of the resolution at which it was looked for.</summary>
    public const double Gate = 1.5;

    /// <summary>Aligns.</summary>
    /// <param name="target">What it is aligned to.</param>
    /// <param name="moving">The photograph.</param>
    /// <param name="options">How.</param>
    /// <param name="parallel">Number of threads and cancellation.</param>
    /// <param name="stageEnds">Hears when a stage has ended, by its name.</param>
    /// <exception cref="Imaging.InputProblem">One of the two is smaller than <see cref="LeastSide"/> pixels.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static PairAlignment Align(AlignmentTarget target, PairImage moving, PairOptions options, ParallelOptions parallel, Action<string>? stageEnds = null)
    {
        var (clock, stages) = (Stopwatch.StartNew(), new List<(string, double)>());
        void Stage(string name)
        {
            parallel.CancellationToken.ThrowIfCancellationRequested();
            stages.Add((name, clock.Elapsed.TotalSeconds));
            stageEnds?.Invoke(name);
            clock.Restart();
        }
        foreach (var image in new[] { target.Reference, moving }) RequireSize(image);
        var survey = new PatchSurvey(target.Reference, target.Map, target.Area, moving, parallel);
        var work = new Work(target, moving, options, survey, parallel, Stage);
        var near = options.Start is { } start ? work.From(new CheckedPlacement(start, StartUnits * Units.Finest(target.Map, target.Area, start, moving), -1)) : null;
        // A beginning that leads nowhere may itself have been wrong.
        var found = near is { Verdict: PairVerdict.Aligned } || (near is not null && options.Depth != SearchDepth.Everywhere) ? near : Surer(near, work.From(work.Search()));
        return found with { Stages = stages };
    }

    private static PairAlignment Surer(PairAlignment? a, PairAlignment b) => a is null || b.Verdict < a.Verdict ? b : a;

    private sealed record Work(AlignmentTarget Target, PairImage Moving, PairOptions Options, PatchSurvey Survey, ParallelOptions Parallel, Action<string> Stage)
    {
        public CheckedPlacement? Search() =>
            new PlacementSearch(Target.Reference, Target.Map, Target.Area, Moving, Options.LeastOverlap, Survey, Parallel).Find(Scales(), HasKnownScale, Options.Depth, Stage);

        /// <summary>A part's stated scale is taken at its word as long as only a quick look is asked for: resolution tags may be wrong.</summary>
        private bool HasKnownScale => Options is { IsPart: true, Depth: SearchDepth.Quick, LikelyScales.Count: > 0 };

        /// <summary>Sizes about which to begin: those that are likely, pixel for pixel, and both showing the same whole.</summary>
        private IReadOnlyList<double> Scales()
        {
            if (HasKnownScale) return Options.LikelyScales!;
            var whole = Math.Max(Target.Area.Width, Target.Area.Height) / Math.Max(Moving.File.Width, Moving.File.Height);
            return [Imaging.Warping.PlaneGrid.MeanScale(Target.Map, Target.Area), .. Options.LikelyScales ?? [], whole];
        }

        public PairAlignment From(CheckedPlacement? placement)
        {
            if (placement is not { Log10FalseAlarms: < 0 }) return Not("No placement of the one on the other makes their structures agree more than chance does.");
            var level = new Refinement(Target.Map, Target.Area, Moving, Survey, Target.Reference.Colours >= 3 && Moving.Colours >= 3).Run(placement, Stage);
            if (level is null) return Not("The structures agree roughly, but no patches hold together at a finer resolution.");
            var frame = MapFrame.For(Moving, level.Matches, level.Map);
            var chosen = new ModelChoice(level, frame, Survey.Rectangle(level.Map), Parallel).Choose(Options.Model);
            Stage("model");
            return chosen is null ? Not("The patches that agree do not determine a map.") : Judge(level, chosen, Survey);
        }
    }

    private static void RequireSize(PairImage image)
    {
        if (Math.Min(image.File.Width, image.File.Height) < LeastSide)
            throw new Imaging.InputProblem("too-small", image.Name, $"{image.Name} has {image.File.Width} x {image.File.Height} pixels.", $"An image needs at least {LeastSide} pixels on its shorter side to be aligned.");
    }

    private static PairAlignment Judge(LevelFit level, FittedModel chosen, PatchSurvey survey)
    {
        double[] distances = [.. chosen.HeldOut.Select(MapFit.Length)];
        var gate = Gate * level.Level.Unit;
        double[] agreeing = [.. distances.Where(d => d <= gate)];
        var independent = Math.Min(1, survey.AreaOf(level.Map) / (distances.Length * Math.Pow(level.Level.Side * level.Level.Unit, 2)));
        var log10 = Agreement.Log10FalseAlarms(Agreement.PlacesTried, (int)(independent * distances.Length), (int)(independent * agreeing.Length), Agreement.Chance(Gate, level.Level.Reach));
        var spread = Spread(survey.Rectangle(level.Map), level.Matches, distances, gate);
        var residual = new HeldOutResidual(distances.Length, agreeing.Length, gate, Robust.Median(agreeing), agreeing.DefaultIfEmpty(double.NaN).Average(), Robust.Quantile(agreeing, 0.95), agreeing.DefaultIfEmpty(double.NaN).Max());
        var (verdict, reason) = Verdict(log10, spread, residual);
        return new PairAlignment
        {
            Verdict = verdict, Reason = reason, Map = verdict == PairVerdict.NotAligned ? null : chosen.Map, Model = chosen.Model, Kind = level.Level.Kind, Unit = level.Level.Unit,
            HeldOut = residual, Log10FalseAlarms = log10, Spread = spread, StandardError = level.Error,
            Patches = [.. level.Matches.Select((m, i) => new PatchResidual(m.Target, chosen.HeldOut[i], distances[i] <= gate))],
        };
    }

    private static (PairVerdict, string) Verdict(double log10, double spread, HeldOutResidual r)
    {
        var share = (double)r.Agreeing / r.Patches;
        var said = string.Create(CultureInfo.InvariantCulture, $"{r.Agreeing} of {r.Patches} held-out patches agree, in {16 * spread:0} of 16 parts of the overlap");
        if (log10 > MostLog10FalseAlarms) return (PairVerdict.NotAligned, said + ": no more than chance gives.");
        if (spread < LeastSpread) return (PairVerdict.Uncertain, said + string.Create(CultureInfo.InvariantCulture, $": at least {16 * LeastSpread:0} are asked for."));
        if (share < LeastAgreeing) return (PairVerdict.Uncertain, said + string.Create(CultureInfo.InvariantCulture, $": at least {100 * LeastAgreeing:0} % are asked for."));
        return (PairVerdict.Aligned, said + ".");
    }

    private static double Spread(Box area, IReadOnlyList<Match> matches, double[] distances, double gate) => matches.Where((_, i) => distances[i] <= gate)
        .Select(m => (Math.Clamp((int)(4 * (m.Target.X - area.Left) / area.Width), 0, 3), Math.Clamp((int)(4 * (m.Target.Y - area.Top) / area.Height), 0, 3))).Distinct().Count() / 16.0;

    private static PairAlignment Not(string reason) => new() { Verdict = PairVerdict.NotAligned, Reason = reason };
}
