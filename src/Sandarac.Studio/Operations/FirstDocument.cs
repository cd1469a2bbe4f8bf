namespace Sandarac.Studio;

/// <summary>The first document of an examination: one self-contained HTML page.</summary>
public sealed class FirstDocument(OpenStudio studio)
{
    /// <summary>Makes the page from the record as it stands.</summary>
    /// <exception cref="Imaging.InputProblem">"unknown-painting".</exception>
    public string Html(Guid paintingId) => throw new NotImplementedException($"{studio.Folder}{paintingId}");
}
