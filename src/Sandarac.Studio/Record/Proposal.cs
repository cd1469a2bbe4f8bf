namespace Sandarac.Studio.Record;

/// <summary>What is proposed to be done. Once approved it is not changed any more: another one supersedes it.</summary>
public sealed class Proposal : Written<ProposalContent>;

/// <summary>What kind of work a step is. Retouching stands apart: what was added to the painting must be told from what is the painter's.</summary>
public enum StepKind
{
    /// <summary>Taking off dirt, varnish or overpaint.</summary>
    Cleaning,

    /// <summary>Fixing what is loose.</summary>
    Consolidation,

    /// <summary>Work on the support.</summary>
    Structural,

    /// <summary>Filling losses.</summary>
    Filling,

    /// <summary>Adding colour where paint is lost.</summary>
    Retouching,

    /// <summary>Varnishing.</summary>
    Varnishing,

    /// <summary>Anything else.</summary>
    Other,
}

/// <summary>A step that is proposed.</summary>
/// <param name="Id">Its key; a step of the treatment names it.</param>
/// <param name="Name">What is to be done.</param>
/// <param name="Kind">What kind of work.</param>
/// <param name="Operation">The operation by which rates are logged and compared: key of a treatment term, or the studio's own words.</param>
/// <param name="Zones">Where; none for the whole painting.</param>
/// <param name="Materials">With what.</param>
/// <param name="Risks">What can go wrong, and what is done against it.</param>
/// <param name="Irreversible">What of it cannot be undone.</param>
public sealed record ProposedStep(Guid Id, string Name, StepKind Kind, string Operation, IReadOnlyList<Guid> Zones, string Materials, string Risks, string Irreversible);

/// <summary>A range with what it rests on.</summary>
/// <param name="Low">The least.</param>
/// <param name="High">The most.</param>
/// <param name="Basis">What it rests on; a range without a basis is refused.</param>
public sealed record GroundedRange(double Low, double High, string Basis);

/// <summary>One way of treating the painting.</summary>
/// <param name="Id">Its key.</param>
/// <param name="Name">What it is called.</param>
/// <param name="Aims">What it is to achieve.</param>
/// <param name="Steps">Its steps in their order.</param>
/// <param name="Hours">Working time, hours; null when nothing tells.</param>
/// <param name="Cost">Cost; null when nothing tells.</param>
/// <param name="Currency">ISO 4217; empty without a cost.</param>
public sealed record ProposalOption(Guid Id, string Name, string Aims, IReadOnlyList<ProposedStep> Steps, GroundedRange? Hours, GroundedRange? Cost, string Currency);

/// <summary>What is written of a proposal.</summary>
public sealed record ProposalContent
{
    /// <summary>What it is called.</summary>
    public string Title { get; init; } = "";

    /// <summary>Why anything is to be done.</summary>
    public string Reason { get; init; } = "";

    /// <summary>The ways between which the custodian chooses; doing nothing may be one.</summary>
    public IReadOnlyList<ProposalOption> Options { get; init; } = [];

    /// <summary>The way that the conservator advises; null when none.</summary>
    public Guid? AdvisedId { get; init; }

    /// <summary>Why that one.</summary>
    public string Advice { get; init; } = "";

    /// <summary>The approved proposal from which this one departs; null for a first.</summary>
    public Guid? SupersedesId { get; init; }
}

/// <summary>That a custodian approved one way of a proposal: the whole text that was approved, and its hash. Never changed.</summary>
public sealed class ProposalApproval
{
    /// <summary>The proposal.</summary>
    public required Guid ProposalId { get; init; }

    /// <summary>The way that was chosen.</summary>
    public required Guid OptionId { get; init; }

    /// <summary>Canonical JSON of the proposal with the zones as they stood, UTF-8.</summary>
    public required string Text { get; init; }

    /// <summary>SHA-256 of that text, hex.</summary>
    public required string Sha256 { get; init; }

    /// <summary>Who approved.</summary>
    public required string Custodian { get; init; }

    /// <summary>As what: "owner", "keeper of paintings".</summary>
    public required string Role { get; init; }

    /// <summary>For whom.</summary>
    public required string Organisation { get; init; }

    /// <summary>How the approval came: "signed letter of 3 May", "by telephone, confirmed by mail".</summary>
    public required string How { get; init; }

    /// <summary>Conditions that the custodian set; empty for none.</summary>
    public required string Conditions { get; init; }

    /// <summary>Who entered it.</summary>
    public required string By { get; init; }

    /// <summary>When it was entered, UTC.</summary>
    public required DateTime At { get; init; }
}
