using Microsoft.EntityFrameworkCore;
using Sandarac.Analysis.Declaring;
using Sandarac.Imaging;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Jobs;

/// <summary>Carries out one run that this thread has taken, and stores how it ends: all of its results in one transaction, or none.</summary>
internal sealed class RunExecution(OpenStudio studio, Guid runId)
{
    public void Carry(IProgress<double>? progress, CancellationToken cancellation)
    {
        using var results = new RunResults(studio);
        Action<Run> ending;
        using (var watch = new CancelWatch(studio, runId, progress, cancellation)) ending = Attempt(results, watch);
        using var db = studio.CreateDb();
        var run = db.Runs.Include(r => r.Rasters).First(r => r.Id == runId);
        ending(run);
        (run.EndedAt, run.Owner) = (studio.Now, null);
        if (run.State is RunState.Done or RunState.NoAnswer) results.Keep(db, run);
        else db.SaveChanges();
    }

    private Action<Run> Attempt(RunResults results, CancelWatch watch)
    {
        try
        {
            watch.Token.ThrowIfCancellationRequested();
            Work(results, watch);
            return run => Succeed(run, results.Outcome);
        }
        catch (OperationCanceledException) when (watch.Token.IsCancellationRequested)
        {
            return run => (run.State, run.Progress) = (watch.WasAsked ? RunState.Cancelled : RunState.Interrupted, 0);
        }
        catch (InputProblem e)
        {
            return run => Fail(run, new RunProblem(e.Code, e.Subject, e.Message, e.Remedy));
        }
        catch (IOException e)
        {
            return run => Fail(run, new RunProblem("disk", studio.Folder, e.Message, "See that the studio's disk is there and has room, then run it again."));
        }
#pragma warning disable CA1031 // A defect of one reading must not end the program; it is stored with the run, and nothing of the run is kept.
        catch (Exception e)
#pragma warning restore CA1031
        {
            return run => Fail(run, new RunProblem("defect", run.ReadingId, $"{e.GetType().Name}: {e.Message}", "This is a defect of the program: report it with the run's number."));
        }
    }

    private void Work(RunResults results, CancelWatch watch)
    {
        using var db = studio.CreateDb();
        var run = db.Runs.AsNoTracking().First(r => r.Id == runId);
        Work(studio, db, run, results, watch, watch.Token);
        results.Finish(watch.Token);
    }

    /// <summary>Makes a run's results; nothing is stored.</summary>
    public static void Work(OpenStudio studio, StudioDb db, Run run, RunResults results, IProgress<double> progress, CancellationToken cancellation)
    {
        if (run.Kind == RunKind.Aligning) new AligningBody(studio, db, run).Work(results, progress, cancellation);
        else ReadingBody.Work(studio, db, run, results, progress, cancellation);
    }

    private static void Succeed(Run run, Outcome outcome)
    {
        (run.State, run.Progress) = (outcome.NoAnswer is null ? RunState.Done : RunState.NoAnswer, 1);
        (run.Figures, run.Warnings, run.NoAnswer) = (outcome.Figures, outcome.Warnings, outcome.NoAnswer);
    }

    private static void Fail(Run run, RunProblem problem) => (run.State, run.Problem, run.Progress) = (RunState.Failed, problem, 0);
}
