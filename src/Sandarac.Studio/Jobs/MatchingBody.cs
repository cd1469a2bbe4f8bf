using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Sandarac.Analysis.Alignment.Pairs;
using Sandarac.Analysis.Declaring;
using Sandarac.Imaging.Geometry;
using Sandarac.Imaging.Tiles;
using Sandarac.Imaging.Warping;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Jobs;

/// <summary>Carries out the alignment of a photograph to another one: by itself, or through point pairs that a person set.</summary>
internal sealed class MatchingBody(OpenStudio studio, StudioDb db, Run run, Photograph photograph, AlignmentPlan plan, MatchPlan match)
{
    public void Work(RunResults results, IProgress<double> progress, CancellationToken cancellation)
    {
        using var reference = Open(match.ReferenceSha256, db.Photographs.AsNoTracking().First(p => p.Id == match.ReferenceId));
        using var moving = Open(photograph.Pyramid!.Sha256, photograph);
        var target = TargetOf(reference.Pair, match.ReferenceExtent);
        var made = match.Pairs is { } pairs ? ThroughPairs(pairs) : ByItself(target, moving.Pair, progress, cancellation);
        if (made is not { Alignment.Map: { } map })
        {
            results.Outcome = new Outcome { NoAnswer = made.Refusal };
            return;
        }
        results.Alignment = made.Alignment;
        if (made.Patches.Count > 0) ResidualMap.Write(results, studio, made.Patches, match.ReferenceExtent);
        var grid = MatchedGrid.Of(map, photograph, plan);
        var file = results.Add(new RasterFile(studio.Objects.NewTemporaryPath(), grid.ExtentMm));
        PlaneResampler.Write(moving.Pair.File, map, grid, file.Path, progress, cancellation);
    }

    /// <summary>A reference's plane image as a target in mm.</summary>
    public static AlignmentTarget TargetOf(PairImage reference, Box extent)
    {
        var mm = extent.Width / reference.File.Width;
        return new AlignmentTarget(reference, new HomographyMap([mm, 0, extent.Left, 0, mm, extent.Top, 0, 0, 1]), extent);
    }

    private Made ByItself(AlignmentTarget target, PairImage moving, IProgress<double> progress, CancellationToken cancellation)
    {
        var done = 0.0;
        var options = new PairOptions(ModelNames.Parse(match.Model), photograph.Facts.Scale is { } scale ? [scale.MmPerPixel] : null, StartOf(match.Start), match.Start is null ? SearchDepth.Everywhere : SearchDepth.Likely);
        var found = PairAligner.Align(target, moving, options, new ParallelOptions { CancellationToken = cancellation }, _ => progress.Report(done = Math.Min(0.8, done + 0.15)));
        if (found.Map is null) return new Made(null, [], found.Reason);
        var verdict = RecordOf(found.Verdict);
        // An alignment that says less of itself than the one in force does not take its place.
        if (InForce() is { } now && now.Verdict < verdict) return new Made(null, [], $"{found.Reason} The alignment in force, which is {Documents.Words.VerdictOf(now.Verdict)}, stays.");
        var held = found.HeldOut!;
        var residuals = new Residuals(held.Median, held.P95, Note(found), held.Mean, held.Max, held.Patches, held.Agreeing);
        return new Made(Make(found.Map, residuals, verdict, found.Reason), found.Patches, "");
    }

    private Made ThroughPairs(IReadOnlyList<PointPair> pairs)
    {
        var fit = PointPairs.Fit(pairs, photograph.Facts.Width, photograph.Facts.Height, ModelNames.Parse(match.Model) ?? PointPairs.ModelFor(pairs.Count(p => p.Used)));
        var used = pairs.Count(p => p.Used);
        var residuals = fit.HeldOut(pairs) is { } held
            ? new Residuals(held.Median, held.P95, "Each pair's distance when it is left out of the fit.", held.Mean, held.Max, used, held.Agreeing)
            : new Residuals(null, null, "As many pairs as the model needs: nothing checks it.", Places: used, Agreeing: 0);
        var (verdict, reason) = PairsJudgement.Judge(fit, pairs, photograph.Facts.Width, photograph.Facts.Height);
        return new Made(Make(fit.Map, residuals, RecordOf(verdict), reason), [], "");
    }

    private static Verdict RecordOf(PairVerdict verdict) => verdict == PairVerdict.Aligned ? Verdict.Aligned : Verdict.Uncertain;

    private Alignment Make(PlaneMap map, Residuals residuals, Verdict verdict, string reason) => new()
    {
        PhotographId = photograph.Id, Version = db.Alignments.Count(a => a.PhotographId == photograph.Id) + 1, Map = map, Method = plan.Method,
        MmPerPixel = PlaneGrid.MeanScale(map, MatchedGrid.Shown(map, photograph, plan.Face)), Residuals = residuals, Verdict = verdict, Reason = reason, RunId = run.Id, CreatedAt = studio.Now,
    };

    /// <summary>As it was when the run ended, should this be its repetition.</summary>
    private Alignment? InForce() => db.Alignments.AsNoTracking().Where(a => a.PhotographId == photograph.Id && a.RunId != run.Id).AsEnumerable()
        .Where(a => run.EndedAt is null || a.CreatedAt < run.EndedAt).MaxBy(a => a.Version);

    private static string Note(PairAlignment found) => string.Create(CultureInfo.InvariantCulture,
        $"Patches that were left out of the fit; {ModelNames.Words(found.Model!.Value)}. A patch agrees within {found.HeldOut!.Gate:0.###} mm. Chance gives such agreement with a probability of 10^{Math.Min(0, found.Log10FalseAlarms):0}.");

    private static HomographyMap? StartOf(PlaneMap? map) => map switch { HomographyMap h => h, WarpedMap w => w.Base, _ => null };

    private OpenedPyramid Open(string sha256, Photograph of)
    {
        studio.Objects.OpenRead(sha256).Dispose();
        var file = PyramidFile.Open(studio.Objects.PathOf(sha256));
        return new OpenedPyramid(new PairImage(of.FileName, file, of.Facts.HasAlpha ? file.Bands - 1 : file.Bands));
    }

    private sealed record Made(Alignment? Alignment, IReadOnlyList<PatchResidual> Patches, string Refusal);

    private sealed record OpenedPyramid(PairImage Pair) : IDisposable
    {
        public void Dispose() => Pair.File.Dispose();
    }
}
