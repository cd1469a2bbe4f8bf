namespace Sandarac.Studio.Archive.BagIt;

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
