using Microsoft.EntityFrameworkCore;
using Sandarac.Analysis.Alignment.Lenses;
using Sandarac.Analysis.Lights;
using Sandarac.Studio.Jobs;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Examine;

/// <summary>Puts the photographs on one plane: looks for the painted face's corners in each, decides the face's size and the grid from all, then aligns
/// each by its corners, by its own border, or says why not. Photographs that are aligned in the same way already are left alone.</summary>
internal sealed class AlignStep(ExamineSession session)
{
    private readonly OpenStudio _studio = session.Studio;

    public void Run(StepRuns runs)
    {
        IReadOnlyList<Photograph> photographs;
        using (var db = _studio.CreateDb()) photographs = session.Photographs(db);
        var whole = photographs.Where(p => p.Subject == PhotographSubject.Painting).ToList();
        var looked = runs.ForEach(FaceFinding.ReadingId, [.. whole.Select(p => (p, "photograph"))], 0.5, 0.63);
        var found = looked.ToDictionary(r => r.Inputs[0].PhotographId, FaceFinding.PlanOf);
        // What a person set by hand counts more than what was found.
        foreach (var photograph in whole)
            if (photograph.Alignments.InForce() is { Method: AlignmentMethod.ByHand } byHand) found[photograph.Id] = AlignmentPlan.FromHand(byHand);
        session.Warnings.AddRange(session.Lenses.Unused([.. whole.Select(p => (p.Facts.Width, p.Facts.Height))]));
        foreach (var photograph in whole) found[photograph.Id] = found[photograph.Id].Through(LensOf(photograph));
        var faces = looked.Where(r => found[r.Inputs[0].PhotographId].Corners.Count == 4).Select(r => FaceIn(whole, r, found[r.Inputs[0].PhotographId])).ToList();
        var plans = Plans(photographs, whole, found, faces, Rulers(runs, photographs));
        var waiting = Queue(photographs, plans);
        runs.Execute(waiting, "aligning", 0.65, 0.75);
    }

    private static FaceInPhotograph FaceIn(List<Photograph> whole, Run looked, AlignmentPlan plan)
    {
        var photograph = whole.First(p => p.Id == looked.Inputs[0].PhotographId);
        return FaceInPhotograph.FromCorners(photograph, plan.Corners, plan.LensOf(photograph), plan.Method == AlignmentMethod.ByHand ? FaceInPhotograph.HandPixels : FaceFinding.CornerPixels(looked));
    }

    private MeasuredLens? LensOf(Photograph photograph) => session.Lenses.For(photograph.Facts.Width, photograph.Facts.Height);

    /// <summary>Rulers in the frames that were taken for a chart or scale.</summary>
    private static IReadOnlyList<RulerInPhotograph> Rulers(StepRuns runs, IReadOnlyList<Photograph> photographs)
    {
        var charts = photographs.Where(p => p.Subject == PhotographSubject.Chart).ToDictionary(p => p.Id);
        var read = runs.ForEach(RulerFinding.ReadingId, [.. charts.Values.Select(p => (p, "ruler"))], 0.63, 0.65);
        return [.. read.Select(r => (charts[r.Inputs[0].PhotographId], RulerFinding.Of(r))).Where(r => r.Item2 is not null).Select(r => new RulerInPhotograph(r.Item1, r.Item2!))];
    }

    private Dictionary<Guid, AlignmentPlan> Plans(IReadOnlyList<Photograph> photographs, List<Photograph> whole, Dictionary<Guid, AlignmentPlan> found, List<FaceInPhotograph> faces,
        IReadOnlyList<RulerInPhotograph> rulers)
    {
        using var db = _studio.CreateDb();
        var painting = db.RequirePainting(session.PaintingId!.Value);
        var known = faces.Count > 0 ? faces : [.. whole.Select(FaceInPhotograph.WholeFrame)];
        session.Warnings.AddRange(PaintingSize.Decide(painting, session.Options, known, rulers));
        var frames = faces.Select(f => (f.Photograph.Facts.Width, f.Photograph.Facts.Height)).ToHashSet();
        double? proportion = painting.WidthMm > 0 ? painting.WidthMm / painting.HeightMm : null;
        var without = whole.Where(p => found.GetValueOrDefault(p.Id) is not { Corners.Count: 4 }).ToList();
        var plans = photographs.ToDictionary(p => p.Id, p => PlanOf(p, found.GetValueOrDefault(p.Id), proportion, without, frames));
        ChooseGrid(painting, photographs, plans);
        db.SaveChanges();
        return photographs.ToDictionary(p => p.Id, p => plans[p.Id].For(painting, p));
    }

    private AlignmentPlan PlanOf(Photograph photograph, AlignmentPlan? found, double? proportion, List<Photograph> without, HashSet<(int, int)> frames)
    {
        if (photograph.Subject != PhotographSubject.Painting) return AlignmentPlan.Without(WhyNot(photograph.Subject));
        if (found is { Corners.Count: 4 }) return found;
        var (plan, reason) = FrameAlignment.Try(photograph, proportion, without, frames);
        return plan?.Through(LensOf(photograph)) ?? AlignmentPlan.Without($"{found?.Reason} {reason}".Trim());
    }

    private static string WhyNot(PhotographSubject subject) => subject switch
    {
        PhotographSubject.Detail => "It shows a part of the painting: the face's four corners are not in the frame.",
        PhotographSubject.Sample => "It shows a paint sample; where it was taken is not recorded.",
        PhotographSubject.Chart => "It was taken for its colour chart or scale.",
        _ => "It does not show the painting: it tells how the light falls and what the sensor adds.",
    };

    /// <summary>The first time, the grid on which the finest photograph in visible light loses nothing; without one, the finest of all.</summary>
    private static void ChooseGrid(Painting painting, IReadOnlyList<Photograph> photographs, Dictionary<Guid, AlignmentPlan> plans)
    {
        if (painting.PlaneMmPerPixel > 0 || painting.WidthMm <= 0) return;
        var grids = photographs.Where(p => plans[p.Id].Corners.Count == 4).Select(p => (p.Light, Mm: plans[p.Id].For(painting, p).MmPerPixel)).ToList();
        if (grids.Count == 0) return;
        var visible = grids.Where(g => g.Light == Light.Visible.Code).ToList();
        painting.PlaneMmPerPixel = (visible.Count > 0 ? visible : grids).Min(g => g.Mm);
    }

    /// <summary>Whether the same corners put it where it is, or where the match that came after them began.</summary>
    private static bool IsDone(StudioDb db, Photograph photograph, Alignment? inForce, string key)
    {
        static bool FollowsCorners(Alignment? a) => a?.Method is AlignmentMethod.Matched or AlignmentMethod.Jointly;
        var began = FollowsCorners(inForce) ? photograph.Alignments.Where(a => !FollowsCorners(a)).MaxBy(a => a.Version) : inForce;
        return began?.RunId is { } id && db.Runs.AsNoTracking().Any(r => r.Id == id && r.Key == key);
    }

    private List<Run> Queue(IReadOnlyList<Photograph> photographs, Dictionary<Guid, AlignmentPlan> plans)
    {
        var aligning = new Aligning(_studio);
        using var db = _studio.CreateDb();
        List<Run> waiting = [];
        foreach (var photograph in photographs)
        {
            var inForce = photograph.Alignments.InForce();
            var run = aligning.Prepare(photograph, plans[photograph.Id], session.Options.UserName);
            if (inForce?.Method == AlignmentMethod.ByPairs || IsDone(db, photograph, inForce, run.Key)) continue;
            db.Runs.Add(run);
            waiting.Add(run);
        }
        db.SaveChanges();
        return waiting;
    }
}
