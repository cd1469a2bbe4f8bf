using Sandarac.Imaging;

namespace Sandarac.Studio.Record;

/// <summary>The object under examination.</summary>
public sealed class Painting
{
    /// <summary>Time-ordered key.</summary>
    public Guid Id { get; init; } = Guid.CreateVersion7();

    /// <summary>What it is called.</summary>
    public required string Title { get; set; }

    /// <summary>"oil on oak".</summary>
    public string? Technique { get; set; }

    /// <summary>"oak panel", "linen canvas".</summary>
    public string? Support { get; set; }

    /// <summary>The owner's number for it.</summary>
    public string? AccessionNumber { get; set; }

    /// <summary>Earliest year of making.</summary>
    public int? DateFrom { get; set; }

    /// <summary>Latest year of making.</summary>
    public int? DateTo { get; set; }

    /// <summary>Width of the painted face, mm; 0 until it is known.</summary>
    public double WidthMm { get; set; }

    /// <summary>Height of the painted face, mm; 0 until it is known.</summary>
    public double HeightMm { get; set; }

    /// <summary>Where the size comes from.</summary>
    public ScaleOrigin SizeOrigin { get; set; }

    /// <summary>Half-width of the size's 95 % interval, as a share of it; null when nobody said how sure it is.</summary>
    public double? SizeUncertainty { get; set; }

    /// <summary>What whoever uses the size must know.</summary>
    public IReadOnlyList<Warning> SizeWarnings { get; set; } = [];

    /// <summary>Size of a pixel of the grid that all plane images share, mm; 0 until the first photograph is aligned.</summary>
    public double PlaneMmPerPixel { get; set; }

    /// <summary>The folder it was examined from, full path: examining that folder again continues with this painting.</summary>
    public string? SourceFolder { get; set; }

    /// <summary>When the record was made, UTC.</summary>
    public DateTime CreatedAt { get; set; }

    /// <summary>Its photographs.</summary>
    public List<Photograph> Photographs { get; } = [];

    /// <summary>Its zones, deleted ones included.</summary>
    public List<Zone> Zones { get; } = [];

    /// <summary>Its runs.</summary>
    public List<Run> Runs { get; } = [];
}
