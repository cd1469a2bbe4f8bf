namespace Sandarac.Studio.Record;

/// <summary>The condition of a painting at one time: which findings stood, on which photographs. Once sealed it is not changed any more.</summary>
public sealed class ConditionState : Written<ConditionStateContent>;

/// <summary>On what occasion a condition is recorded.</summary>
public enum Occasion
{
    /// <summary>An examination without treatment or loan.</summary>
    Examination,

    /// <summary>Before a treatment.</summary>
    BeforeTreatment,

    /// <summary>During a treatment.</summary>
    DuringTreatment,

    /// <summary>After a treatment.</summary>
    AfterTreatment,

    /// <summary>Leaving on loan, or returning to the lender.</summary>
    Outgoing,

    /// <summary>Arriving.</summary>
    Incoming,

    /// <summary>A look in between.</summary>
    Check,
}

/// <summary>How a finding stands to the state that is compared with.</summary>
public enum Standing
{
    /// <summary>Nobody has answered yet.</summary>
    Open,

    /// <summary>As it was.</summary>
    AsBefore,

    /// <summary>There, but otherwise than it was.</summary>
    Changed,

    /// <summary>It was not there, or not seen.</summary>
    New,

    /// <summary>It is not there any more.</summary>
    Gone,
}

/// <summary>A finding in a state.</summary>
/// <param name="FindingId">The finding.</param>
/// <param name="Standing">How it stands to the state compared with; as before where none is.</param>
/// <param name="Note">What is to be said of it.</param>
public sealed record StateEntry(Guid FindingId, Standing Standing, string Note);

/// <summary>What is written of a state.</summary>
public sealed record ConditionStateContent
{
    /// <summary>What it is called: "before treatment", "unpacking in the gallery".</summary>
    public string Name { get; init; } = "";

    /// <summary>On what occasion.</summary>
    public Occasion Occasion { get; init; } = Occasion.Examination;

    /// <summary>The day.</summary>
    public DateOnly? On { get; init; }

    /// <summary>Where.</summary>
    public string Place { get; init; } = "";

    /// <summary>The state that it is compared with; null for a baseline.</summary>
    public Guid? BaselineId { get; init; }

    /// <summary>Which findings stood.</summary>
    public IReadOnlyList<StateEntry> Entries { get; init; } = [];

    /// <summary>Photographs made then; the first is what the condition plan is drawn on.</summary>
    public IReadOnlyList<Guid> Photographs { get; init; } = [];

    /// <summary>Free words.</summary>
    public string Note { get; init; } = "";
}

/// <summary>A state as it was sealed: its whole content as text, and the hash of that text.</summary>
public sealed class StateSeal
{
    /// <summary>The state.</summary>
    public required Guid StateId { get; init; }

    /// <summary>Canonical JSON of the state with its findings and zones as they stood, UTF-8.</summary>
    public required string Text { get; init; }

    /// <summary>SHA-256 of that text, hex.</summary>
    public required string Sha256 { get; init; }

    /// <summary>Why it was sealed with something still open; empty when nothing was.</summary>
    public required string OpenReason { get; init; }

    /// <summary>Who sealed it.</summary>
    public required string By { get; init; }

    /// <summary>When, UTC.</summary>
    public required DateTime At { get; init; }

    /// <summary>Who signed it, in the order of signing.</summary>
    public List<Signature> Signatures { get; } = [];
}

/// <summary>That a person signed a sealed state.</summary>
public sealed class Signature
{
    /// <summary>The sealed state.</summary>
    public required Guid StateId { get; init; }

    /// <summary>1, 2 in the order of signing.</summary>
    public required int Number { get; init; }

    /// <summary>Who signed.</summary>
    public required string Name { get; init; }

    /// <summary>As what: "courier", "registrar of the borrower".</summary>
    public required string Role { get; init; }

    /// <summary>For whom.</summary>
    public required string Organisation { get; init; }

    /// <summary>The hash of the text that was signed.</summary>
    public required string Sha256 { get; init; }

    /// <summary>When, UTC.</summary>
    public required DateTime At { get; init; }
}
