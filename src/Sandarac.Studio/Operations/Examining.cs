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

    /// <summary>What a file may ask of this machine.</summary>
    public ImageLimits Limits { get; init; } = ImageLimits.Default;

    /// <summary>Who examines.</summary>
    public string UserName { get; init; } = Environment.UserName;
}

/// <summary>Where an examination stands.</summary>
/// <param name="Step">"finding", "importing", "aligning", "reading", "writing".</param>
/// <param name="Item">The file or reading.</param>
/// <param name="Done">0 to 1 over the whole examination.</param>
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
/// <param name="Runs">Runs of readings.</param>
/// <param name="Refusals">Files that were not imported, and why.</param>
/// <param name="AlreadyThere">Files that were imported before or are copies of another, by name.</param>
/// <param name="Warnings">What to know about the whole examination.</param>
/// <param name="DocumentPath">The first document.</param>
public sealed record Examination(Painting Painting, IReadOnlyList<Photograph> Photographs, IReadOnlyList<Run> Runs, IReadOnlyList<Refusal> Refusals,
    IReadOnlyList<string> AlreadyThere, IReadOnlyList<Warning> Warnings, string DocumentPath);

/// <summary>A folder of photographs in, a measured examination out.</summary>
public sealed class Examining(OpenStudio studio)
{
    /// <summary>
    /// Imports a folder's photographs, puts them on the plane, runs the readings that apply and writes the first document. Examining the same
    /// folder again continues where the last time ended. One photograph's failure never stops the others.
    /// </summary>
    /// <exception cref="InputProblem">The folder is missing or holds no photograph; a size that is not one; a faulty photographs.csv.</exception>
    /// <exception cref="OperationCanceledException">Cancelled; what was imported stays.</exception>
    public Examination Examine(string folder, ExamineOptions options, IProgress<ExamineProgress>? progress = null, CancellationToken cancellation = default) =>
        throw new NotImplementedException($"{studio.Folder}{folder}{options}{progress}{cancellation}");
}
