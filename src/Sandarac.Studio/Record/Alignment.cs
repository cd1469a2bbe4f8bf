using Sandarac.Imaging.Geometry;

namespace Sandarac.Studio.Record;

/// <summary>How far an alignment may be trusted.</summary>
public enum Verdict
{
    /// <summary>On the plane, with residuals that say how well.</summary>
    Aligned,

    /// <summary>On the plane, but a person should look.</summary>
    Uncertain,

    /// <summary>Not on the plane; the reason says why.</summary>
    NotAligned,
}

/// <summary>How well an alignment fits, in mm on the plane.</summary>
/// <param name="MedianMm">Half of the places lie within; null when it cannot be known.</param>
/// <param name="P95Mm">95 of 100 places lie within; null when it cannot be known.</param>
/// <param name="Note">What the figures were got from, or why there are none.</param>
/// <param name="MeanMm">Mean distance; null when it is not known.</param>
/// <param name="MaxMm">Largest distance; null when it is not known.</param>
/// <param name="Places">Places that were looked at: held-out patches, or point pairs; null for corners.</param>
/// <param name="Agreeing">Those of them that the figures are of.</param>
public sealed record Residuals(double? MedianMm, double? P95Mm, string Note, double? MeanMm = null, double? MaxMm = null, int? Places = null, int? Agreeing = null);

/// <summary>The mapping from a photograph's pixels to the plane. Never edited: a new one supersedes it.</summary>
public sealed class Alignment
{
    /// <summary>Time-ordered key.</summary>
    public Guid Id { get; init; } = Guid.CreateVersion7();

    /// <summary>The photograph.</summary>
    public required Guid PhotographId { get; init; }

    /// <summary>1, 2, 3 ... for one photograph.</summary>
    public required int Version { get; init; }

    /// <summary>The mapping; null when not aligned.</summary>
    public PlaneMap? Map { get; init; }

    /// <summary>How it was got: one of <see cref="AlignmentMethod"/>.</summary>
    public required string Method { get; init; }

    /// <summary>The corners used: upper left, upper right, lower right, lower left, pixels; empty when none.</summary>
    public IReadOnlyList<Point2> Corners { get; init; } = [];

    /// <summary>Size of a pixel of the photograph at the middle of the face, mm; null when not aligned.</summary>
    public double? MmPerPixel { get; init; }

    /// <summary>How well it fits.</summary>
    public Residuals? Residuals { get; init; }

    /// <summary>How far it may be trusted.</summary>
    public required Verdict Verdict { get; init; }

    /// <summary>Why that verdict, in words.</summary>
    public required string Reason { get; init; }

    /// <summary>The run that gave it, when one did.</summary>
    public Guid? RunId { get; init; }

    /// <summary>The photograph resampled once onto the plane's grid, its own depth kept; null when not aligned.</summary>
    public PyramidFacts? PlaneImage { get; set; }

    /// <summary>Where the plane image lies, mm on the plane, y down.</summary>
    public Box? PlaneExtent { get; set; }

    /// <summary>When it was made, UTC.</summary>
    public required DateTime CreatedAt { get; init; }

    /// <summary>The alignment that took its place; null while it is in force.</summary>
    public Guid? SupersededBy { get; set; }
}

/// <summary>Finding the alignment that counts.</summary>
public static class Alignments
{
    /// <summary>The alignment in force among a photograph's; null before the first.</summary>
    public static Alignment? InForce(this IEnumerable<Alignment> alignments) => alignments.Where(a => a.SupersededBy is null).MaxBy(a => a.Version);
}
