using Sandarac.Analysis.Alignment;
using Sandarac.Analysis.Declaring;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Jobs;

/// <summary>From a run of the corner-finding reading to the plan of an alignment.</summary>
internal static class FaceFinding
{
    public const string ReadingId = "face-corners";

    /// <summary>The plan; without corners when there was no answer.</summary>
    public static AlignmentPlan PlanOf(Run run)
    {
        if (run.State == RunState.Failed) return AlignmentPlan.Without($"Looking for the corners failed: {run.Problem!.Message}");
        if (run.State is not (RunState.Done or RunState.NoAnswer)) return AlignmentPlan.Without("Looking for the corners was stopped.");
        var found = CornersOf(run);
        return found.Verdict == FaceVerdict.NotAligned ? AlignmentPlan.Without(found.Reason)
            : new AlignmentPlan(AlignmentMethod.Found, found.Corners, found.K1, found.Verdict == FaceVerdict.Aligned ? Verdict.Aligned : Verdict.Uncertain, found.Reason, found.ResidualPx);
    }

    /// <summary>How sure the corners of a run are: the largest half-width of a 95 % interval, pixels; 0 when there are none.</summary>
    public static double CornerPixels(Run run) => run.State == RunState.Done ? CornersOf(run).CornerPixels : 0;

    private static FaceCorners CornersOf(Run run) => FaceCorners.From(new Outcome { Figures = run.Figures, Warnings = run.Warnings, NoAnswer = run.NoAnswer });
}
