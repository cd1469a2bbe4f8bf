namespace Sandarac.Studio.Record;

/// <summary>What a person states of a painting. It is never overwritten: a change supersedes what stood before, which stays readable under its revision.</summary>
public sealed class Finding : Written<FindingContent>;

/// <summary>How sure a person is of what she makes of a thing.</summary>
public enum Certainty
{
    /// <summary>Beyond reasonable doubt.</summary>
    Certain,

    /// <summary>More likely than not.</summary>
    Probable,

    /// <summary>Not excluded.</summary>
    Possible,
}

/// <summary>What kind of thing a finding rests on.</summary>
public enum EvidenceKind
{
    /// <summary>A photograph of the painting or of a sample.</summary>
    Photograph,

    /// <summary>A run of a reading.</summary>
    Reading,

    /// <summary>A paint sample.</summary>
    Sample,

    /// <summary>Another finding.</summary>
    Finding,

    /// <summary>A book, an article, an earlier report: named in the note.</summary>
    Literature,
}

/// <summary>One thing that a finding rests on.</summary>
/// <param name="Kind">What kind of thing.</param>
/// <param name="Id">Its key; null for literature.</param>
/// <param name="Note">What it shows, or which book and page.</param>
public sealed record Evidence(EvidenceKind Kind, Guid? Id, string Note);

/// <summary>What is written of a finding.</summary>
public sealed record FindingContent
{
    /// <summary>1, 2, 3 on each painting in the order in which they were first written; given by the record.</summary>
    public int Number { get; init; }

    /// <summary>What is seen.</summary>
    public string Observation { get; init; } = "";

    /// <summary>What is made of it.</summary>
    public string Interpretation { get; init; } = "";

    /// <summary>How sure the interpretation is.</summary>
    public Certainty Confidence { get; init; } = Certainty.Possible;

    /// <summary>Key of the term: "varnish/bloom"; empty when none fits.</summary>
    public string Term { get; init; } = "";

    /// <summary>Where it is.</summary>
    public IReadOnlyList<Guid> Zones { get; init; } = [];

    /// <summary>How bad it is; empty when nobody judged.</summary>
    public string Severity { get; init; } = "";

    /// <summary>What that word means here; a severity without a definition is refused.</summary>
    public string SeverityDefinition { get; init; } = "";

    /// <summary>What it rests on.</summary>
    public IReadOnlyList<Evidence> Evidence { get; init; } = [];

    /// <summary>Who states it.</summary>
    public string Author { get; init; } = "";

    /// <summary>The day on which it was seen.</summary>
    public DateOnly? SeenOn { get; init; }
}

/// <summary>A term that a studio added to those that come with the program. Studio-wide.</summary>
public sealed class HouseTerm
{
    /// <summary>What records name it by: "varnish/sugar bloom".</summary>
    public required string Key { get; init; }

    /// <summary>"condition", "technique", "treatment".</summary>
    public required string Category { get; init; }

    /// <summary>The layer that it belongs to, or its group.</summary>
    public required string Group { get; init; }

    /// <summary>The term.</summary>
    public required string Name { get; init; }

    /// <summary>What is meant by it.</summary>
    public required string Definition { get; init; }

    /// <summary>Who added it.</summary>
    public required string By { get; init; }

    /// <summary>When, UTC.</summary>
    public required DateTime At { get; init; }
}

/// <summary>What a person decided about a zone that a reading proposed. Decisions are added, never changed.</summary>
public sealed class CandidateDecision
{
    /// <summary>The zone.</summary>
    public required Guid ZoneId { get; init; }

    /// <summary>1, 2, 3 for one zone.</summary>
    public required int Number { get; init; }

    /// <summary>The painting.</summary>
    public required Guid PaintingId { get; init; }

    /// <summary>What was decided.</summary>
    public required CandidateVerdict Verdict { get; init; }

    /// <summary>Why; never empty for a rejection.</summary>
    public required string Reason { get; init; }

    /// <summary>The finding that it became.</summary>
    public Guid? FindingId { get; init; }

    /// <summary>Who decided.</summary>
    public required string By { get; init; }

    /// <summary>When, UTC.</summary>
    public required DateTime At { get; init; }
}

/// <summary>What a person makes of a candidate.</summary>
public enum CandidateVerdict
{
    /// <summary>It is one: it became a finding.</summary>
    Kept,

    /// <summary>It is none.</summary>
    Rejected,

    /// <summary>The decision was taken back: it is a candidate again.</summary>
    Reopened,
}
