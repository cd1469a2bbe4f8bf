using Sandarac.Studio.Documents.Phrasing;

namespace Sandarac.Studio.Documents.Model;

/// <summary>Whose paper it is.</summary>
/// <param name="Name">The studio's or museum's name.</param>
/// <param name="Address">Lines below it.</param>
/// <param name="Logo">Its sign; null for none.</param>
public sealed record Letterhead(string Name, IReadOnlyList<string> Address, RasterPicture? Logo = null);

/// <summary>A document of any kind: what it says and in which order, apart from how it is set. PDF, DOCX and HTML are made from it.</summary>
public sealed record Document
{
    /// <summary>What the painting is called.</summary>
    public required string Title { get; init; }

    /// <summary>"Examination report".</summary>
    public required string Kind { get; init; }

    /// <summary>Title, number and size of the painting in one line, for the head of every page.</summary>
    public required string Identity { get; init; }

    /// <summary>The language it is written in.</summary>
    public required Phrases Phrases { get; init; }

    /// <summary>Who is responsible for it; empty when nobody was named.</summary>
    public string Author { get; init; } = "";

    /// <summary>What stands at the foot of every page.</summary>
    public string Footer { get; init; } = "";

    /// <summary>Whose paper it is; null for plain paper.</summary>
    public Letterhead? Letterhead { get; init; }

    /// <summary>The picture of the whole; null when there is none.</summary>
    public Plate? Frontispiece { get; init; }

    /// <summary>What stands on the first page below title and picture.</summary>
    public IReadOnlyList<Block> Opening { get; init; } = [];

    /// <summary>The sections.</summary>
    public IReadOnlyList<Section> Sections { get; init; } = [];

    /// <summary>The last paragraph.</summary>
    public string Closing { get; init; } = "";

    /// <summary>When it was made, UTC.</summary>
    public required DateTime Made { get; init; }
}
