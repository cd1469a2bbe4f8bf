using Sandarac.Analysis.Lights;
using Sandarac.Imaging;
using Sandarac.Imaging.Formats;

namespace Sandarac.Studio.Record;

/// <summary>One image file of the painting or of a sample, with its light. The row is the commit point of an import.</summary>
public sealed class Photograph
{
    /// <summary>Time-ordered key.</summary>
    public Guid Id { get; init; } = Guid.CreateVersion7();

    /// <summary>The painting.</summary>
    public required Guid PaintingId { get; init; }

    /// <summary>The file's path below the examined folder, with forward slashes.</summary>
    public required string FileName { get; set; }

    /// <summary>The original file's object, untouched.</summary>
    public required string Sha256 { get; init; }

    /// <summary>Canonical code of the light; null when nobody could tell.</summary>
    public string? Light { get; set; }

    /// <summary>Side of the lamp as a compass letter: N top, E right.</summary>
    public string? LightSide { get; set; }

    /// <summary>Lamp, degrees clockwise seen from the front, 0 from the top edge.</summary>
    public double? AzimuthDeg { get; set; }

    /// <summary>Lamp, degrees above the painting's plane.</summary>
    public double? ElevationDeg { get; set; }

    /// <summary>How sure the light is; certain when a person stated it.</summary>
    public Confidence LightConfidence { get; set; }

    /// <summary>Why that light, in words.</summary>
    public string LightReason { get; set; } = "";

    /// <summary>What is in the frame.</summary>
    public PhotographSubject Subject { get; set; }

    /// <summary>Name of the sample, for sections.</summary>
    public string? Sample { get; set; }

    /// <summary>For sections: code of the light under the microscope.</summary>
    public string? SectionLight { get; set; }

    /// <summary>Number of the plate, for an X-radiograph in several plates.</summary>
    public int? Plate { get; set; }

    /// <summary>What the file's header says.</summary>
    public required ImageFacts Facts { get; init; }

    /// <summary>The original in its own pixels as a tiled pyramid.</summary>
    public PyramidFacts? Pyramid { get; set; }

    /// <summary>When it was taken by the camera's clock, without zone.</summary>
    public DateTime? TakenAt { get; set; }

    /// <summary>When it was imported, UTC.</summary>
    public DateTime ImportedAt { get; set; }

    /// <summary>What whoever uses it must know.</summary>
    public IReadOnlyList<Warning> Warnings { get; set; } = [];

    /// <summary>Its alignments, newest last.</summary>
    public List<Alignment> Alignments { get; } = [];
}
