using Sandarac.Imaging;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Examine;

/// <summary>Queues and carries out the runs of an examination, several at once; one that fails is stored as failed and the others go on.</summary>
internal sealed class StepRuns(ExamineSession session)
{
    private readonly Running _running = new(session.Studio);

    /// <summary>Runs of readings so far.</summary>
    public List<Run> Done { get; } = [];

    /// <summary>A reading on each photograph by itself.</summary>
    public IReadOnlyList<Run> ForEach(string readingId, IReadOnlyList<(Photograph Photograph, string Slot)> inputs, double from, double to) =>
        Read([.. inputs.Select(i => Request(readingId, new Dictionary<string, IReadOnlyList<Guid>> { [i.Slot] = [i.Photograph.Id] }))], from, to);

    /// <summary>A request with the reading's default parameters.</summary>
    public RunRequest Request(string readingId, IReadOnlyDictionary<string, IReadOnlyList<Guid>> inputs) =>
        new(session.PaintingId!.Value, readingId, new Dictionary<string, string>(), inputs, session.Options.UserName);

    /// <summary>Queues readings and carries them out; one with the same key that was done before is found again.</summary>
    public IReadOnlyList<Run> Read(IReadOnlyList<RunRequest> requests, double from, double to)
    {
        List<Run> queued = [];
        foreach (var request in requests)
        {
            try
            {
                queued.Add(_running.Queue(request));
            }
            catch (InputProblem e)
            {
                session.Warnings.Add(new Warning(e.Code, $"{request.ReadingId} could not run: {e.Message} {e.Remedy}"));
            }
        }
        var ended = Execute(queued, "reading", from, to);
        Done.AddRange(ended);
        return ended;
    }

    /// <summary>Carries out queued runs; the result is in the order given.</summary>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public IReadOnlyList<Run> Execute(IReadOnlyList<Run> queued, string step, double from, double to)
    {
        List<Run> ended = [];
        InOrder.Run(queued, Math.Max(1, session.Options.Threads), run => _running.Execute(run.Id, null, session.Cancellation), (run, result) =>
        {
            session.Cancellation.ThrowIfCancellationRequested();
            ended.Add(result);
            if (result.State == RunState.Failed)
                session.Warnings.Add(new Warning(result.Problem!.Code, $"{run.ReadingId} on {run.Inputs[0].FileName} failed: {result.Problem.Message} {result.Problem.Remedy}"));
            session.Report(step, $"{run.ReadingId}: {run.Inputs[0].FileName}", from + (to - from) * ended.Count / queued.Count);
        }, session.Cancellation);
        return ended;
    }
}
