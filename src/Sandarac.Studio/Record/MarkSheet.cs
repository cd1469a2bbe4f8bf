namespace Sandarac.Studio.Record;

/// <summary>What a person teaches with.</summary>
/// <param name="Classes">Names of the classes in her order, at most eight; one may have no marks yet.</param>
/// <param name="StrokeMm">How wide a stroke counts, mm.</param>
/// <param name="Layers">Photographs that are looked at; empty while she has not chosen.</param>
/// <param name="Marks">GeoJSON feature collection, mm on the plane, each feature with one of the classes as the property "class".</param>
public sealed record MarkSheetContent(IReadOnlyList<string> Classes, double StrokeMm, IReadOnlyList<Guid> Layers, string Marks);

/// <summary>The marks that a person is working on, one sheet a painting. A run that is taught with them keeps a copy of its own, which never changes.</summary>
public sealed class MarkSheet
{
    /// <summary>The painting.</summary>
    public required Guid PaintingId { get; init; }

    /// <summary>What it holds.</summary>
    public required MarkSheetContent Content { get; set; }

    /// <summary>0 before anything was stored, then one more with every change; a change names the revision it was made on.</summary>
    public int Revision { get; set; }

    /// <summary>When it was last changed, UTC.</summary>
    public DateTime UpdatedAt { get; set; }
}
