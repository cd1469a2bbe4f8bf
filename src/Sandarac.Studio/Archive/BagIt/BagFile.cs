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

/// <summary>What a bag, and with it a studio's disk, may be asked for.</summary>
internal sealed record BagLimits
{
    /// <summary>Files. A painting's whole record has some thousands.</summary>
    public int Files { get; init; } = 200_000;

    /// <summary>Folders within folders.</summary>
    public int Depth { get; init; } = 24;

    /// <summary>All files together, bytes; the room on the disk they are meant for.</summary>
    public long Bytes { get; init; } = long.MaxValue;

    /// <summary>One tag file, bytes: the manifest of as many files as are allowed.</summary>
    public long TagBytes { get; init; } = 64L << 20;

    /// <summary>How many times smaller than its content a zip may be. Photographs hardly shrink; deflate's own limit is 1032.</summary>
    public int Ratio { get; init; } = 100;

    /// <summary>Below this many bytes a high ratio does no harm.</summary>
    public long RatioFrom { get; init; } = 64L << 20;
}

/// <summary>One thing that is wrong with a bag, or to be known of it.</summary>
/// <param name="Code">Stable, kebab-case.</param>
/// <param name="Subject">The file or the line.</param>
/// <param name="Message">What is the matter, in one sentence.</param>
public sealed record BagNote(string Code, string Subject, string Message);

/// <summary>What was found about a bag.</summary>
/// <param name="Version">Its BagIt version; null when it states none that is known.</param>
/// <param name="Problems">What makes it invalid; none when it is valid.</param>
/// <param name="Warnings">What is to be known of it, valid or not.</param>
internal sealed record BagVerdict(BagVersion? Version, IReadOnlyList<BagNote> Problems, IReadOnlyList<BagNote> Warnings)
{
    public bool IsValid => Problems.Count == 0;
}
