namespace Sandarac.Studio.Record;

/// <summary>What kind of thing a search finds.</summary>
public enum SearchSubject
{
    /// <summary>A finding.</summary>
    Finding,

    /// <summary>A sample with its layers.</summary>
    Sample,

    /// <summary>A cleaning test.</summary>
    CleaningTest,

    /// <summary>A material that somebody states.</summary>
    Material,

    /// <summary>A step of a treatment.</summary>
    TreatmentStep,

    /// <summary>An entry of a treatment's log.</summary>
    LogEntry,
}

/// <summary>What a search looks at: one row a thing, made from the record whenever that thing changes. The databases index its words themselves.</summary>
public sealed class SearchEntry
{
    /// <summary>Key by which the full-text index names it.</summary>
    public long Id { get; init; }

    /// <summary>That thing.</summary>
    public required Guid SubjectId { get; init; }

    /// <summary>What kind of thing.</summary>
    public required SearchSubject Subject { get; init; }

    /// <summary>The painting.</summary>
    public required Guid PaintingId { get; init; }

    /// <summary>What a list shows of it.</summary>
    public required string Title { get; set; }

    /// <summary>All its words.</summary>
    public required string Words { get; set; }

    /// <summary>Key of its term; empty when it has none.</summary>
    public required string Term { get; set; }

    /// <summary>Codes of the lights of the photographs and readings that it rests on, between spaces: " UVL VIS ".</summary>
    public required string Lights { get; set; }

    /// <summary>Materials that it names; empty when none.</summary>
    public required string Materials { get; set; }

    /// <summary>The day to which it belongs; of what is only planned or goes on, the day on which it was written.</summary>
    public DateOnly? On { get; set; }

    /// <summary>Area of its zones together, mm2; null when it has none.</summary>
    public double? AreaMm2 { get; set; }
}
