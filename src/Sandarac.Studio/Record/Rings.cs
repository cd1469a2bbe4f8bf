using Sandarac.Imaging.Geometry;

namespace Sandarac.Studio.Record;

/// <summary>Widths of the rings of one board.</summary>
public sealed class RingSeries : Written<RingSeriesContent>;

/// <summary>What is written of a series.</summary>
public sealed record RingSeriesContent
{
    /// <summary>What it is called: at most eight letters in the exchange format.</summary>
    public string Name { get; init; } = "";

    /// <summary>The board: "board 2, counted from the left".</summary>
    public string Board { get; init; } = "";

    /// <summary>The photograph that it was measured on; null when it came in a file.</summary>
    public Guid? PhotographId { get; init; }

    /// <summary>The run that proposed the boundaries; null when a person set all.</summary>
    public Guid? RunId { get; init; }

    /// <summary>The line along which it was measured, in the photograph's pixels, in the direction of growth.</summary>
    public IReadOnlyList<Point2> Line { get; init; } = [];

    /// <summary>Boundaries between rings, mm along the line; one more than there are widths. None when it came in a file.</summary>
    public IReadOnlyList<double> BoundariesMm { get; init; } = [];

    /// <summary>Widths, mm, the oldest ring first.</summary>
    public IReadOnlyList<double> WidthsMm { get; init; } = [];

    /// <summary>Where the widths come from: a file, a scale.</summary>
    public string Origin { get; init; } = "";

    /// <summary>Year of the first ring once a person accepted a date; null before. There is no year 0: 1 BC is -1.</summary>
    public int? FirstYear { get; init; }

    /// <summary>On what that date rests.</summary>
    public string DateBasis { get; init; } = "";

    /// <summary>Sapwood rings at the end of the series; null when nobody said.</summary>
    public int? SapwoodRings { get; init; }

    /// <summary>Whether the last ring lies under the bark.</summary>
    public bool HasWaneyEdge { get; init; }

    /// <summary>Free words.</summary>
    public string Note { get; init; } = "";
}

/// <summary>A file of dated series to cross-date against. Studio-wide; added, never changed.</summary>
public sealed class ReferenceChronology
{
    /// <summary>Time-ordered key.</summary>
    public Guid Id { get; init; } = Guid.CreateVersion7();

    /// <summary>What it is called.</summary>
    public required string Name { get; init; }

    /// <summary>Name of the file.</summary>
    public required string FileName { get; init; }

    /// <summary>SHA-256 of the file in the store.</summary>
    public required string Sha256 { get; init; }

    /// <summary>Species and region.</summary>
    public required string Region { get; init; }

    /// <summary>Where it comes from and who may use it.</summary>
    public required string Source { get; init; }

    /// <summary>Who added it.</summary>
    public required string By { get; init; }

    /// <summary>When, UTC.</summary>
    public required DateTime At { get; init; }

    /// <summary>When it was taken out of use, UTC.</summary>
    public DateTime? WithdrawnAt { get; set; }
}
