using Sandarac.Imaging;
using Sandarac.Imaging.Formats;
using Sandarac.Studio.Record;

namespace Sandarac.Studio;

/// <summary>What a person says about the painting when its photographs are examined.</summary>
public sealed record ExamineOptions
{
    /// <summary>What it is called; the folder's name when not given.</summary>
    public string? Title { get; init; }

    /// <summary>"oil on oak".</summary>
    public string? Technique { get; init; }

    /// <summary>Height of the painted face, mm, as measured.</summary>
    public double? HeightMm { get; init; }

    /// <summary>Width of the painted face, mm, as measured.</summary>
    public double? WidthMm { get; init; }

    /// <summary>Align by the painted face's corners alone, without matching what photographs show: faster, less close, and parts stay off the plane.</summary>
    public bool CornersOnly { get; init; }

    /// <summary>
    /// Files of calibration frames, a flat chessboard each. Photographs as large as a frame are put on the plane by their corners through its lens. In the folder itself they are
    /// not taken in as photographs of the painting.
    /// </summary>
    public IReadOnlyList<string> Lens { get; init; } = [];

    /// <summary>What a file may ask of this machine.</summary>
    public ImageLimits Limits { get; init; } = ImageLimits.Default;

    /// <summary>Who examines.</summary>
    public string UserName { get; init; } = Environment.UserName;

    /// <summary>Files and readings worked on at once; changes speed and memory, never a result.</summary>
    public int Threads { get; init; } = Environment.ProcessorCount;
}

/// <summary>Where an examination stands.</summary>
/// <param name="Step">"finding", "importing", "imported" (it is stored now), "refused", "aligning", "reading", "writing".</param>
/// <param name="Item">The file or reading; for "refused" with the reason.</param>
/// <param name="Done">0 to 1 over the whole examination, never falling.</param>
public sealed record ExamineProgress(string Step, string Item, double Done);

/// <summary>A file that was not imported.</summary>
/// <param name="File">Its path below the folder.</param>
/// <param name="Code">Stable code of the problem.</param>
/// <param name="Message">What is wrong.</param>
/// <param name="Remedy">What to do about it.</param>
public sealed record Refusal(string File, string Code, string Message, string Remedy);

/// <summary>What an examination gave.</summary>
/// <param name="Painting">The painting, with its size.</param>
/// <param name="Photographs">Its photographs with their alignments, in the order of their names.</param>
/// <param name="Runs">Runs of readings, oldest first.</param>
/// <param name="Refusals">Files that were not imported, and why.</param>
/// <param name="AlreadyThere">Files that were imported before or are copies of another, in words.</param>
/// <param name="Warnings">What to know about the whole examination.</param>
/// <param name="DocumentPath">The first document.</param>
public sealed record Examination(Painting Painting, IReadOnlyList<Photograph> Photographs, IReadOnlyList<Run> Runs, IReadOnlyList<Refusal> Refusals,
    IReadOnlyList<string> AlreadyThere, IReadOnlyList<Warning> Warnings, string DocumentPath);
