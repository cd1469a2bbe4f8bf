using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Sandarac.Analysis.Alignment;
using Sandarac.Imaging.Tiles;
using Sandarac.Imaging.Warping;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Jobs;

/// <summary>Carries out an alignment's plan: the map, how well it fits, and the photograph resampled once onto the plane's grid.</summary>
internal sealed class AligningBody(OpenStudio studio, StudioDb db, Run run)
{
    /// <summary>Largest difference of <see cref="FaceFit.Proportion"/> from 1. A camera tilted by 20 degrees gives 6 %; more means that the stated size does not fit.</summary>
    private const double MostSkew = 0.08;

    public void Work(RunResults results, IProgress<double> progress, CancellationToken cancellation)
    {
        var plan = AlignmentPlan.Of(run);
        var photograph = db.Photographs.AsNoTracking().First(p => p.Id == run.Inputs[0].PhotographId);
        if (plan.Match is { } match)
        {
            new MatchingBody(studio, db, run, photograph, plan, match).Work(results, progress, cancellation);
            return;
        }
        if (plan.Joint is { } joint)
        {
            Place(plan, joint, photograph, results, progress, cancellation);
            return;
        }
        if (plan.Resize is { } resize)
        {
            Resize(plan, resize, photograph, results, progress, cancellation);
            return;
        }
        results.Alignment = plan.Corners.Count == 0 ? Make(plan, null) : Make(plan, plan.MapOf(photograph));
        if (results.Alignment.Map is not { } map) return;
        Resample(photograph, map, PlaneGrid.Covering(plan.Face, plan.MmPerPixel), results, progress, cancellation);
    }

    private void Resample(Photograph photograph, Imaging.Geometry.PlaneMap map, PlaneGrid grid, RunResults results, IProgress<double> progress, CancellationToken cancellation)
    {
        var file = results.Add(new RasterFile(studio.Objects.NewTemporaryPath(), grid.ExtentMm));
        studio.Objects.OpenRead(photograph.Pyramid!.Sha256).Dispose();
        using var source = PyramidFile.Open(studio.Objects.PathOf(photograph.Pyramid!.Sha256));
        PlaneResampler.Write(source, map, grid, file.Path, progress, cancellation);
    }

    /// <summary>The same alignment on a plane of another size: what agreed still agrees, and only its millimetres are others.</summary>
    private void Resize(AlignmentPlan plan, ResizePlan resize, Photograph photograph, RunResults results, IProgress<double> progress, CancellationToken cancellation)
    {
        var former = db.Alignments.AsNoTracking().First(a => a.Id == resize.AlignmentId);
        var (map, f) = (former.Map!.Scaled(resize.Factor), resize.Factor);
        results.Alignment = new Alignment
        {
            PhotographId = photograph.Id, Version = db.Alignments.Count(a => a.PhotographId == photograph.Id) + 1, Map = map, Method = former.Method, Corners = former.Corners,
            MmPerPixel = f * former.MmPerPixel, Residuals = former.Residuals is not { } r ? null : r with { MedianMm = f * r.MedianMm, P95Mm = f * r.P95Mm, MeanMm = f * r.MeanMm, MaxMm = f * r.MaxMm },
            Verdict = former.Verdict, Reason = former.Reason, RunId = run.Id, CreatedAt = studio.Now,
        };
        var grid = former.Method is AlignmentMethod.Matched or AlignmentMethod.Jointly or AlignmentMethod.ByPairs ? MatchedGrid.Of(map, photograph, plan) : PlaneGrid.Covering(plan.Face, plan.MmPerPixel);
        Resample(photograph, map, grid, results, progress, cancellation);
    }

    /// <summary>Puts a part where the mosaic has put it.</summary>
    private void Place(AlignmentPlan plan, JointPlan joint, Photograph photograph, RunResults results, IProgress<double> progress, CancellationToken cancellation)
    {
        results.Alignment = new Alignment
        {
            PhotographId = photograph.Id, Version = db.Alignments.Count(a => a.PhotographId == photograph.Id) + 1, Map = joint.Map, Method = plan.Method,
            MmPerPixel = PlaneGrid.MeanScale(joint.Map, MatchedGrid.Shown(joint.Map, photograph, plan.Face)), Residuals = joint.Residuals,
            Verdict = plan.Verdict, Reason = plan.Reason, RunId = run.Id, CreatedAt = studio.Now,
        };
        Resample(photograph, joint.Map, MatchedGrid.Of(joint.Map, photograph, plan), results, progress, cancellation);
    }

    private Alignment Make(AlignmentPlan plan, (Imaging.Geometry.HomographyMap Map, FaceFit Fit)? made)
    {
        var (verdict, reason) = (plan.Verdict, plan.Reason);
        if (made is { Fit.Proportion: var proportion } && Math.Abs(proportion - 1) > MostSkew)
            (verdict, reason) = (Verdict.Uncertain, reason + string.Create(CultureInfo.InvariantCulture,
                $" The stated height and width do not fit: a pixel comes out {100 * Math.Abs(proportion - 1):0} % {(proportion > 1 ? "wider than high" : "higher than wide")}."));
        var residual = made?.Fit.ResidualMm;
        return new Alignment
        {
            PhotographId = run.Inputs[0].PhotographId,
            Version = db.Alignments.Count(a => a.PhotographId == run.Inputs[0].PhotographId) + 1,
            Map = made?.Map,
            Method = plan.Method,
            Corners = plan.Corners,
            MmPerPixel = made?.Fit.MmPerPixel,
            Residuals = made is null ? null : new Residuals(residual?.Median, residual?.P95, residual is null ? "Nothing checks it." : ""),
            Verdict = verdict,
            Reason = reason,
            RunId = run.Id,
            CreatedAt = studio.Now,
        };
    }
}
