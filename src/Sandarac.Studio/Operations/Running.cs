using Microsoft.EntityFrameworkCore;
using Sandarac.Analysis.Declaring;
using Sandarac.Imaging;
using Sandarac.Studio.Jobs;
using Sandarac.Studio.Record;
using Sandarac.Studio.Storage;

namespace Sandarac.Studio;

/// <summary>What a person asks a reading to do.</summary>
/// <param name="PaintingId">The painting.</param>
/// <param name="ReadingId">The reading.</param>
/// <param name="Parameters">Parameters as text; defaults fill the rest. Unknown names are refused.</param>
/// <param name="Inputs">Photographs for each slot.</param>
/// <param name="UserName">Who asks.</param>
public sealed record RunRequest(Guid PaintingId, string ReadingId, IReadOnlyDictionary<string, string> Parameters,
    IReadOnlyDictionary<string, IReadOnlyList<Guid>> Inputs, string UserName);

/// <summary>Asks for runs and carries them out.</summary>
public sealed class Running(OpenStudio studio)
{
    private static readonly RunState[] Reusable = [RunState.Done, RunState.NoAnswer, RunState.Queued, RunState.Running];

    /// <summary>Adds a queued run, or finds the one that has done, or is about to do, the same: same reading, version, parameters and inputs.</summary>
    /// <exception cref="InputProblem">Unknown reading, parameter or photograph; a slot not filled; a photograph not aligned.</exception>
    public Run Queue(RunRequest request)
    {
        var declaration = ReadingCatalogue.Find(request.ReadingId).Declaration;
        var arguments = Arguments.Resolve(declaration, request.Parameters);
        using var db = studio.CreateDb();
        using var inputs = InputSet.Open(studio, db, declaration, request.PaintingId, request.Inputs);
        InputCheck.Check(declaration, inputs.Images);
        var record = RunRecord.Of(declaration, arguments, inputs.Images);
        if (Find(db, request.PaintingId, record.Key) is { } same) return same;
        var run = new Run
        {
            PaintingId = request.PaintingId,
            Kind = RunKind.Reading,
            ReadingId = record.Reading,
            ReadingVersion = record.Version,
            Parameters = record.Parameters.ToDictionary(p => p.Name, p => p.Value),
            Inputs = inputs.Sources,
            Key = record.Key,
            SoftwareVersion = record.SoftwareVersion,
            UserName = request.UserName,
            QueuedAt = studio.Now,
        };
        db.Runs.Add(run);
        db.SaveChanges();
        return run;
    }

    /// <summary>Carries out a queued or interrupted run in this thread, storing how it ends. Cancelled and failed runs do not throw; nothing of them is kept.</summary>
    /// <param name="runId">The run; one that ended already, or that another thread has taken, is left alone.</param>
    /// <param name="progress">Told 0 to 1.</param>
    /// <param name="cancellation">Stops it; the run is then interrupted, and can be carried out later.</param>
    /// <exception cref="InputProblem">"unknown-run".</exception>
    public Run Execute(Guid runId, IProgress<double>? progress = null, CancellationToken cancellation = default)
    {
        using (var db = studio.CreateDb())
        {
            db.RequireRun(runId);
            var taken = db.Runs.Where(r => r.Id == runId && (r.State == RunState.Queued || r.State == RunState.Interrupted)).ExecuteUpdate(set => set
                .SetProperty(r => r.State, RunState.Running).SetProperty(r => r.Owner, Owner.This.ToString()).SetProperty(r => r.StartedAt, studio.Now)
                .SetProperty(r => r.EndedAt, (DateTime?)null).SetProperty(r => r.Progress, 0));
            if (taken == 1) new RunExecution(studio, runId).Carry(progress, cancellation);
        }
        return Find(runId);
    }

    /// <summary>Asks a run to stop, whatever process carries it out; one that waits is cancelled at once.</summary>
    /// <exception cref="InputProblem">"unknown-run".</exception>
    public void Cancel(Guid runId)
    {
        using var db = studio.CreateDb();
        db.RequireRun(runId);
        var now = studio.Now;
        db.Runs.Where(r => r.Id == runId && (r.State == RunState.Queued || r.State == RunState.Interrupted))
            .ExecuteUpdate(set => set.SetProperty(r => r.State, RunState.Cancelled).SetProperty(r => r.EndedAt, now));
        db.Runs.Where(r => r.Id == runId && r.State == RunState.Running).ExecuteUpdate(set => set.SetProperty(r => r.CancelRequested, true));
    }

    /// <summary>An interrupted run waits for its turn again.</summary>
    public void Requeue(Guid runId)
    {
        using var db = studio.CreateDb();
        db.Runs.Where(r => r.Id == runId && r.State == RunState.Interrupted)
            .ExecuteUpdate(set => set.SetProperty(r => r.State, RunState.Queued).SetProperty(r => r.EndedAt, (DateTime?)null));
    }

    /// <summary>A run with its rasters.</summary>
    /// <exception cref="InputProblem">"unknown-run".</exception>
    public Run Find(Guid runId)
    {
        using var db = studio.CreateDb();
        return db.Runs.AsNoTracking().Include(r => r.Rasters).FirstOrDefault(r => r.Id == runId) ?? db.RequireRun(runId);
    }

    /// <summary>Repeats a finished run from its stored inputs and parameters, keeping nothing, and compares.</summary>
    /// <exception cref="InputProblem">There is no such run, it has no result, or the reading has another version now.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public Repetition Rerun(Guid runId, IProgress<double>? progress = null, CancellationToken cancellation = default)
    {
        var run = Find(runId);
        if (run.State is not (RunState.Done or RunState.NoAnswer))
            throw new InputProblem("run-without-result", run.ReadingId, "Only a run that ended with a result can be repeated and compared.", "Run it first.");
        using var results = new RunResults(studio);
        using var db = studio.CreateDb();
        RunExecution.Work(studio, db, run, results, progress ?? new Progress<double>(), cancellation);
        return Comparison.Of(run, db.Alignments.AsNoTracking().FirstOrDefault(a => a.RunId == run.Id), results, cancellation);
    }

    private static Run? Find(StudioDb db, Guid paintingId, string key) => db.Runs.AsNoTracking().Include(r => r.Rasters)
        .Where(r => r.PaintingId == paintingId && r.Key == key && Reusable.Contains(r.State) && !r.CancelRequested).OrderBy(r => r.QueuedAt).FirstOrDefault();
}
