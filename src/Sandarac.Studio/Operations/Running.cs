using Sandarac.Imaging;
using Sandarac.Studio.Record;

namespace Sandarac.Studio;

/// <summary>What a person asks a reading to do.</summary>
/// <param name="PaintingId">The painting.</param>
/// <param name="ReadingId">The reading.</param>
/// <param name="Parameters">Parameters as text; defaults fill the rest. Unknown names are refused.</param>
/// <param name="Inputs">Photographs for each slot.</param>
/// <param name="UserName">Who asks.</param>
public sealed record RunRequest(Guid PaintingId, string ReadingId, IReadOnlyDictionary<string, string> Parameters,
    IReadOnlyDictionary<string, IReadOnlyList<Guid>> Inputs, string UserName);

/// <summary>What repeating a run showed.</summary>
/// <param name="RunId">The run that was repeated.</param>
/// <param name="FiguresEqual">Whether every figure came out the same, to the last bit.</param>
/// <param name="RastersEqual">Whether every raster came out the same, pixel by pixel.</param>
/// <param name="Differences">What differs, in words; empty when nothing does.</param>
public sealed record Repetition(Guid RunId, bool FiguresEqual, bool RastersEqual, IReadOnlyList<string> Differences);

/// <summary>Asks for runs and carries them out.</summary>
public sealed class Running(OpenStudio studio)
{
    /// <summary>Adds a queued run, or finds the one that has done the same: same reading, version, parameters and inputs.</summary>
    /// <exception cref="InputProblem">Unknown reading, parameter or photograph; a slot not filled; a photograph not aligned.</exception>
    public Run Queue(RunRequest request) => throw new NotImplementedException(studio.Folder + request);

    /// <summary>Carries out a queued or interrupted run in this thread, storing how it ends. Returns when it has ended; cancelled and failed runs do not throw.</summary>
    /// <param name="runId">The run.</param>
    /// <param name="progress">Told 0 to 1.</param>
    /// <param name="cancellation">Cancels it.</param>
    public Run Execute(Guid runId, IProgress<double>? progress = null, CancellationToken cancellation = default) => throw new NotImplementedException($"{runId}{progress}{cancellation}");

    /// <summary>Asks a run to stop, whatever process carries it out.</summary>
    public void Cancel(Guid runId) => throw new NotImplementedException($"{runId}");

    /// <summary>Repeats a finished run from its stored inputs and parameters, keeping nothing, and compares.</summary>
    /// <exception cref="InputProblem">There is no such run, it has no result, or the reading has another version now.</exception>
    public Repetition Rerun(Guid runId, IProgress<double>? progress = null, CancellationToken cancellation = default) => throw new NotImplementedException($"{runId}{progress}{cancellation}");
}
