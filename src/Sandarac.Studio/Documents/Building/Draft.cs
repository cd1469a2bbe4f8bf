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

    /// <summary>The pictures.</summary>
    public PlateMaking Plates => new(this);
}
