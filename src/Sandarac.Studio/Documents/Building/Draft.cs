using Sandarac.Studio.Documents.Phrasing;

namespace Sandarac.Studio.Documents.Building;

/// <summary>What the sections of a document are written from.</summary>
/// <param name="Studio">The studio.</param>
/// <param name="Content">The record.</param>
/// <param name="Fields">What a person filled in.</param>
/// <param name="Phrases">The language.</param>
internal sealed record Draft(OpenStudio Studio, DocumentContent Content, DocumentFields Fields, Phrases Phrases)
{
    /// <summary>A fixed text.</summary>
    public string this[Phrase phrase] => Phrases[phrase];

    /// <summary>The painting.</summary>
    public Record.Painting Painting => Content.Painting;

    /// <summary>The findings on the painted face, as they stand.</summary>
    public Lazy<Plans.ConditionPlan> Plan { get; } = new(() => new Plans.ConditionPlans(Studio).Of(Content.Painting.Id));

    /// <summary>Proposals, approvals, steps and log.</summary>
    public Lazy<TreatmentContent> Treatment { get; } = new(() => TreatmentContent.Read(Studio, Content.Painting.Id));

    /// <summary>The pictures.</summary>
    public PlateMaking Plates => new(this);
}
