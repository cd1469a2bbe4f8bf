using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Lights;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Studio.Record;

/// <summary>What a run does.</summary>
public enum RunKind
{
    /// <summary>A declared reading.</summary>
    Reading,

    /// <summary>Putting a photograph on the plane.</summary>
    Aligning,
}

/// <summary>Where a run stands. Rows are the truth; the queue only carries them out.</summary>
public enum RunState
{
    /// <summary>Waiting for its turn.</summary>
    Queued,

    /// <summary>Under way, in the process that its owner names.</summary>
    Running,

    /// <summary>Ended with results.</summary>
    Done,

    /// <summary>Ended, and the honest result is that there is none.</summary>
    NoAnswer,

    /// <summary>Stopped by a person; nothing of it was kept.</summary>
    Cancelled,

    /// <summary>Stopped by a problem; nothing of it was kept.</summary>
    Failed,

    /// <summary>Its process ended before it did; nothing of it was kept.</summary>
    Interrupted,
}

/// <summary>What a run reads.</summary>
/// <param name="Slot">The reading's input slot.</param>
/// <param name="PhotographId">The photograph.</param>
/// <param name="FileName">The photograph's file name then.</param>
/// <param name="Sha256">The object read: the original, or its plane image for readings on the plane.</param>
/// <param name="Light">Code of its light then.</param>
/// <param name="MmPerPixel">Its scale then; null when unknown.</param>
/// <param name="ScaleOrigin">Where the scale came from.</param>
/// <param name="Lamp">Where its lamp stood then, in inputs for which that counts; null when unknown.</param>
public sealed record RunSource(string Slot, Guid PhotographId, string FileName, string Sha256, string? Light, double? MmPerPixel, ScaleOrigin? ScaleOrigin, LampAngles? Lamp = null);

/// <summary>Why a run failed.</summary>
/// <param name="Code">Stable code; "defect" when it is the program's fault.</param>
/// <param name="Subject">The parameter or file that is wrong.</param>
/// <param name="Message">What is wrong.</param>
/// <param name="Remedy">What to do about it.</param>
public sealed record RunProblem(string Code, string Subject, string Message, string Remedy);

/// <summary>One execution of a reading or of an alignment, with everything needed to repeat it.</summary>
public sealed class Run
{
    /// <summary>Time-ordered key.</summary>
    public Guid Id { get; init; } = Guid.CreateVersion7();

    /// <summary>The painting.</summary>
    public required Guid PaintingId { get; init; }

    /// <summary>What it does.</summary>
    public required RunKind Kind { get; init; }

    /// <summary>The reading's id; "align" for an alignment.</summary>
    public required string ReadingId { get; init; }

    /// <summary>The reading's version.</summary>
    public required int ReadingVersion { get; init; }

    /// <summary>Every parameter with its resolved value, defaults included.</summary>
    public required IReadOnlyDictionary<string, string> Parameters { get; init; }

    /// <summary>What it reads.</summary>
    public required IReadOnlyList<RunSource> Inputs { get; init; }

    /// <summary>SHA-256 of what decides the numbers (see <see cref="RunRecord.Key"/>): equal keys have equal results.</summary>
    public required string Key { get; init; }

    /// <summary>Version of the program.</summary>
    public required string SoftwareVersion { get; init; }

    /// <summary>Who asked for it.</summary>
    public required string UserName { get; init; }

    /// <summary>Where it stands.</summary>
    public RunState State { get; set; }

    /// <summary>0 to 1.</summary>
    public double Progress { get; set; }

    /// <summary>Whether a person asked to stop it.</summary>
    public bool CancelRequested { get; set; }

    /// <summary>The process that carries it out; null before it starts.</summary>
    public string? Owner { get; set; }

    /// <summary>When it was asked for, UTC.</summary>
    public required DateTime QueuedAt { get; init; }

    /// <summary>When it began, UTC.</summary>
    public DateTime? StartedAt { get; set; }

    /// <summary>When it ended, UTC.</summary>
    public DateTime? EndedAt { get; set; }

    /// <summary>What whoever uses the result must know.</summary>
    public IReadOnlyList<Warning> Warnings { get; set; } = [];

    /// <summary>Figures with their uncertainty.</summary>
    public IReadOnlyList<Figure> Figures { get; set; } = [];

    /// <summary>Why it failed.</summary>
    public RunProblem? Problem { get; set; }

    /// <summary>Why there is no answer, in one sentence.</summary>
    public string? NoAnswer { get; set; }

    /// <summary>Rasters it wrote.</summary>
    public List<RunRaster> Rasters { get; } = [];
}

/// <summary>A raster that a run wrote.</summary>
public sealed class RunRaster
{
    /// <summary>The run.</summary>
    public required Guid RunId { get; init; }

    /// <summary>The name under which the reading declares it.</summary>
    public required string Name { get; init; }

    /// <summary>The raster as a tiled pyramid.</summary>
    public required PyramidFacts Pyramid { get; init; }

    /// <summary>Where it lies, mm on the plane, y down; null for a reading in a photograph's own pixels.</summary>
    public Box? Extent { get; init; }
}
