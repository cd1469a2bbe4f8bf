namespace Sandarac.Analysis.Declaring;

/// <summary>A computed result's recipe: the declaration and the run. The mathematics is a plain static function beside it.</summary>
public abstract class Reading
{
    /// <summary>What the reading says of itself.</summary>
    public abstract Declaration Declaration { get; }

    /// <summary>Runs it. Inputs and arguments are already checked against the declaration.</summary>
    /// <returns>Figures, candidates and warnings; rasters go through <see cref="RunContext.CreateRaster(string, int, int, Imaging.PixelScale?)"/> as they are made.</returns>
    /// <exception cref="Imaging.InputProblem">The inputs cannot be used, and a person can put it right.</exception>
    /// <exception cref="OperationCanceledException">The run was cancelled.</exception>
    public abstract Outcome Run(RunContext context);
}

/// <summary>What a run gives besides its rasters.</summary>
public sealed record Outcome
{
    /// <summary>Figures, in the declaration's order.</summary>
    public IReadOnlyList<Figure> Figures { get; init; } = [];

    /// <summary>Zones it proposes.</summary>
    public IReadOnlyList<Candidate> Candidates { get; init; } = [];

    /// <summary>What whoever uses the result must know.</summary>
    public IReadOnlyList<Imaging.Warning> Warnings { get; init; } = [];

    /// <summary>Set when there is no answer: why, in one sentence. Such a run is stored like any other and has no rasters.</summary>
    public string? NoAnswer { get; init; }
}
