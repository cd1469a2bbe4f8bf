namespace Sandarac.Studio.Archive.BagIt;

/// <summary>A file of a bag.</summary>
/// <param name="Path">Its path in the bag, forward slashes.</param>
/// <param name="Bytes">Its length as the folder or the zip states it.</param>
internal sealed record BagFile(string Path, long Bytes);

/// <summary>Where a bag lies: a folder, or a zip. Nothing of it is trusted, and nothing of it is ever written under the name that it has there.</summary>
internal interface IBagSource : IDisposable
{
    /// <summary>Its files, sorted by path.</summary>
    IReadOnlyList<BagFile> Files { get; }

    /// <summary>Whether the payload folder is there, be it empty.</summary>
    bool HasPayload { get; }

    /// <summary>What whoever opens it must know of the container itself.</summary>
    IReadOnlyList<BagNote> Warnings { get; }

    /// <summary>Opens a file; reading beyond its stated length is an <see cref="InvalidDataException"/>.</summary>
    Stream Open(BagFile file);
}
