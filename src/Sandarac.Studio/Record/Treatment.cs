namespace Sandarac.Studio.Record;

/// <summary>A step of a treatment: where it is done and on whose approval.</summary>
public sealed class TreatmentStep : Written<TreatmentStepContent>;

/// <summary>What is written of a step.</summary>
public sealed record TreatmentStepContent
{
    /// <summary>What is done.</summary>
    public string Name { get; init; } = "";

    /// <summary>What kind of work.</summary>
    public StepKind Kind { get; init; } = StepKind.Other;

    /// <summary>The operation by which rates are logged and compared.</summary>
    public string Operation { get; init; } = "";

    /// <summary>Where it is to be done; none for the whole painting.</summary>
    public IReadOnlyList<Guid> Zones { get; init; } = [];

    /// <summary>The approved proposal; null for a step that nobody approved yet.</summary>
    public Guid? ProposalId { get; init; }

    /// <summary>Its step; null when it departs from the proposal.</summary>
    public Guid? ProposedStepId { get; init; }

    /// <summary>Why it was begun before an approval; empty unless waiting would have done harm.</summary>
    public string UrgentReason { get; init; } = "";

    /// <summary>The day on which it was ended; null while it goes on.</summary>
    public DateOnly? EndedOn { get; init; }

    /// <summary>Free words.</summary>
    public string Note { get; init; } = "";
}

/// <summary>An entry of the treatment's log.</summary>
public sealed class LogEntry : Written<LogEntryContent>;

/// <summary>How a material came to the painting, or left it.</summary>
public enum MaterialUse
{
    /// <summary>It was used and does not stay.</summary>
    Used,

    /// <summary>It stays on the painting.</summary>
    Added,

    /// <summary>It was taken off the painting.</summary>
    Removed,
}

/// <summary>A material in an entry of the log.</summary>
/// <param name="Name">What it is: "isooctane + ethanol 80:20".</param>
/// <param name="Amount">How much; null when nobody measured.</param>
/// <param name="Unit">"mL", "g", "sheets"; empty without an amount.</param>
/// <param name="Batch">Batch or delivery; empty when unknown.</param>
/// <param name="Use">Whether it stays on the painting.</param>
public sealed record LogMaterial(string Name, double? Amount, string Unit, string Batch, MaterialUse Use);

/// <summary>What is written of an entry.</summary>
public sealed record LogEntryContent
{
    /// <summary>The step.</summary>
    public Guid StepId { get; init; }

    /// <summary>The day.</summary>
    public DateOnly? On { get; init; }

    /// <summary>Who did it.</summary>
    public string Who { get; init; } = "";

    /// <summary>What was done.</summary>
    public string What { get; init; } = "";

    /// <summary>Working time, hours; null when nobody noted it.</summary>
    public double? Hours { get; init; }

    /// <summary>Where it was done that day: progress is counted from these.</summary>
    public IReadOnlyList<Guid> Zones { get; init; } = [];

    /// <summary>With what and how much.</summary>
    public IReadOnlyList<LogMaterial> Materials { get; init; } = [];

    /// <summary>Photographs made before, during or after.</summary>
    public IReadOnlyList<Guid> Photographs { get; init; } = [];

    /// <summary>Whether it was timed as a test, from which the time for the rest is estimated.</summary>
    public bool IsTimedTest { get; init; }

    /// <summary>What was seen that the proposal did not foresee.</summary>
    public string NewlySeen { get; init; } = "";

    /// <summary>In what it departed from what was approved; empty when it did not.</summary>
    public string Departure { get; init; } = "";
}
