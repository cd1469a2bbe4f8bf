using Sandarac.Studio.BuildUp;

namespace Sandarac.Studio.Record;

/// <summary>A stage of the painting's making, or of what was done to it later.</summary>
public sealed class Stage : Written<StageContent>;

/// <summary>What is written of a stage.</summary>
public sealed record StageContent
{
    /// <summary>What it is called.</summary>
    public string Name { get; init; } = "";

    /// <summary>What it is.</summary>
    public StageKind Kind { get; init; } = StageKind.Other;

    /// <summary>Free words.</summary>
    public string Note { get; init; } = "";

    /// <summary>Zones in which it is seen.</summary>
    public IReadOnlyList<Guid> Zones { get; init; } = [];
}

/// <summary>That one stage lies over, lies under or is the same as another, as a person says.</summary>
public sealed class Relation : Written<RelationContent>;

/// <summary>What is written of a relation: it names a sample, a zone or a photograph, or says in words what it rests on.</summary>
public sealed record RelationContent
{
    /// <summary>The first stage.</summary>
    public Guid StageId { get; init; }

    /// <summary>How the first lies to the second.</summary>
    public RelationKind Kind { get; init; }

    /// <summary>The second stage.</summary>
    public Guid OtherId { get; init; }

    /// <summary>A sample that shows it.</summary>
    public Guid? SampleId { get; init; }

    /// <summary>A zone where it is seen on the surface.</summary>
    public Guid? ZoneId { get; init; }

    /// <summary>A photograph that shows it, in infrared or by X-rays for instance.</summary>
    public Guid? PhotographId { get; init; }

    /// <summary>What is seen: "the highlight crosses the retouching".</summary>
    public string Note { get; init; } = "";
}
