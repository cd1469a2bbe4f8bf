using Microsoft.EntityFrameworkCore;
using Sandarac.Analysis.Alignment.Pairs;
using Sandarac.Analysis.Lights;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Examine;

/// <summary>Brings every photograph onto one of visible light by what both show, starting from its corners where they were found. What a person set by hand is left alone.</summary>
internal sealed class MatchStep(ExamineSession session)
{
    private static readonly string[] ByHand = [AlignmentMethod.ByHand, AlignmentMethod.ByPairs];

    public void Run(StepRuns runs) => runs.Execute(Queue(), "matching", 0.75, 0.85);

    /// <summary>The photograph that the others are brought onto: surely aligned by its own corners, in visible light if there is one, the finest.</summary>
    public static Photograph? Reference(IEnumerable<Photograph> photographs) => photographs
        .Where(p => p.Subject == PhotographSubject.Painting && p.Alignments.InForce() is { PlaneImage: not null, Method: not (AlignmentMethod.Matched or AlignmentMethod.Jointly) })
        .OrderBy(p => p.Alignments.InForce()!.Verdict).ThenBy(p => p.Light == Light.Visible.Code ? 0 : 1)
        .ThenBy(p => p.Alignments.InForce()!.MmPerPixel).ThenBy(p => p.FileName, StringComparer.Ordinal).FirstOrDefault();

    private List<Run> Queue()
    {
        using var db = session.Studio.CreateDb();
        var photographs = session.Photographs(db);
        if (Reference(photographs) is not { } reference) return [];
        var painting = db.RequirePainting(session.PaintingId!.Value);
        var aligning = new Aligning(session.Studio);
        List<Run> waiting = [];
        foreach (var photograph in photographs.Where(p => p.Id != reference.Id && Belongs(p) && !MosaicStep.IsPart(p, photographs)))
        {
            // Corners stay the beginning, whatever came after them: the same evidence makes the same run.
            var start = photograph.Alignments.Where(a => a.Corners.Count == 4).MaxBy(a => a.Version)?.Map;
            var run = aligning.Prepare(photograph, Aligning.MatchTo(painting, photograph, reference, ModelNames.Automatic, start, null), session.Options.UserName);
            if (db.Runs.AsNoTracking().Any(r => r.PaintingId == painting.Id && r.Key == run.Key && (r.State == RunState.Done || r.State == RunState.NoAnswer))) continue;
            db.Runs.Add(run);
            waiting.Add(run);
        }
        db.SaveChanges();
        return waiting;
    }

    private static bool Belongs(Photograph photograph) =>
        photograph.Subject is PhotographSubject.Painting or PhotographSubject.Detail && !ByHand.Contains(photograph.Alignments.InForce()?.Method);
}
