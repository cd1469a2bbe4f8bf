using Sandarac.Studio.Record;

namespace Sandarac.Studio.Archive.Rows;

/// <summary>A file of the object store in a package.</summary>
/// <param name="Sha256">Its hash.</param>
/// <param name="Bytes">Its length.</param>
/// <param name="MediaType">"image/tiff".</param>
/// <param name="IsDerived">Whether it was computed; false for what came from outside.</param>
/// <param name="StoredAt">When it was first stored, UTC.</param>
/// <param name="Path">Where it lies in the package, below data/.</param>
internal sealed record PackedObject(string Sha256, long Bytes, string MediaType, bool IsDerived, DateTime StoredAt, string Path)
{
    public StoredObject ToRow() => new() { Sha256 = Sha256, Bytes = Bytes, MediaType = MediaType, CreatedAt = StoredAt, IsDerived = IsDerived };
}

/// <summary>What record.json holds.</summary>
/// <param name="Rows">Every row that belongs to the painting.</param>
/// <param name="Objects">The files that the rows speak of, sorted by path.</param>
/// <param name="Software">The program that wrote it.</param>
internal sealed record RecordFile(RecordRows Rows, IReadOnlyList<PackedObject> Objects, string Software)
{
    /// <summary>What tells it apart from any other JSON.</summary>
    public const string Format = "sandarac-record";

    /// <summary>Rises when a program that reads the former one would read this one wrongly. A new table or column does not raise it: it is refused by name where it is not known.</summary>
    public const int Version = 1;

    /// <summary>Where it lies below data/.</summary>
    public const string Path = "record/record.json";
}
