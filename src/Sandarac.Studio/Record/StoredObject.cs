namespace Sandarac.Studio.Record;

/// <summary>A file in the object store. The row is written after the file is whole and durable.</summary>
public sealed class StoredObject
{
    /// <summary>SHA-256 of the content, lower-case hexadecimal; the key.</summary>
    public required string Sha256 { get; init; }

    /// <summary>Length.</summary>
    public required long Bytes { get; init; }

    /// <summary>"image/tiff".</summary>
    public required string MediaType { get; init; }

    /// <summary>When it was stored, UTC.</summary>
    public required DateTime CreatedAt { get; init; }

    /// <summary>Whether it was computed and can be made again; false for what came from outside, which cannot.</summary>
    public required bool IsDerived { get; init; }
}
