namespace Sandarac.Studio.Record;

/// <summary>A material that the studio has. Studio-wide; added, never changed, taken off the shelf when it is used up.</summary>
public sealed class ShelfItem
{
    /// <summary>Time-ordered key.</summary>
    public Guid Id { get; init; } = Guid.CreateVersion7();

    /// <summary>What it is: a solvent by the name of the table, or any material.</summary>
    public required string Name { get; init; }

    /// <summary>Batch or delivery; empty when unknown.</summary>
    public required string Batch { get; init; }

    /// <summary>Who made it and its grade.</summary>
    public required string Supplier { get; init; }

    /// <summary>The day of the safety data sheet that lies with it; null when nobody noted it.</summary>
    public DateOnly? SheetOn { get; init; }

    /// <summary>Who put it there.</summary>
    public required string By { get; init; }

    /// <summary>When, UTC.</summary>
    public required DateTime At { get; init; }

    /// <summary>When it was taken off, UTC.</summary>
    public DateTime? RemovedAt { get; set; }
}

/// <summary>A region of solubility as a person entered it, with its source. Studio-wide; a corrected one supersedes it.</summary>
public sealed class HouseRegion
{
    /// <summary>Time-ordered key.</summary>
    public Guid Id { get; init; } = Guid.CreateVersion7();

    /// <summary>What it is the region of: "aged dammar", "leaching of young oil paint".</summary>
    public required string Name { get; init; }

    /// <summary>Middle in Hansen space: dispersion, MPa^0.5; null for a region of the Teas triangle.</summary>
    public double? DispersionMpa { get; init; }

    /// <summary>Middle: polar, MPa^0.5.</summary>
    public double? PolarMpa { get; init; }

    /// <summary>Middle: hydrogen bonds, MPa^0.5.</summary>
    public double? HydrogenMpa { get; init; }

    /// <summary>Radius R0, MPa^0.5.</summary>
    public double? RadiusMpa { get; init; }

    /// <summary>Corners in the Teas triangle as percent of dispersion (X) and of hydrogen bonds (Y); none for a region of Hansen space.</summary>
    public IReadOnlyList<Imaging.Geometry.Point2> TeasOutline { get; init; } = [];

    /// <summary>Where the figures come from; never empty.</summary>
    public required string Citation { get; init; }

    /// <summary>The region that this one corrects.</summary>
    public Guid? SupersedesId { get; init; }

    /// <summary>Who entered it.</summary>
    public required string By { get; init; }

    /// <summary>When, UTC.</summary>
    public required DateTime At { get; init; }

    /// <summary>When it was withdrawn, UTC.</summary>
    public DateTime? WithdrawnAt { get; set; }
}
