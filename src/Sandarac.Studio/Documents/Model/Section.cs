namespace Sandarac.Studio.Documents.Model;

/// <summary>A numbered section.</summary>
/// <param name="Title">Its heading.</param>
/// <param name="Blocks">What stands in it.</param>
/// <param name="Sections">Its own sections, set after the blocks.</param>
public sealed record Section(string Title, IReadOnlyList<Block> Blocks, IReadOnlyList<Section> Sections)
{
    /// <summary>A section without sections of its own.</summary>
    public Section(string title, params IReadOnlyList<Block> blocks) : this(title, blocks, []) { }
}
