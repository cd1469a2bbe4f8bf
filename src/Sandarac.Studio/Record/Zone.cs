namespace Sandarac.Studio.Record;

/// <summary>A geometry on the plane with what a person, or a reading, says of it.</summary>
public sealed class Zone
{
    /// <summary>Time-ordered key.</summary>
    public Guid Id { get; init; } = Guid.CreateVersion7();

    /// <summary>The painting.</summary>
    public required Guid PaintingId { get; init; }

    /// <summary>What a person calls it.</summary>
    public required string Name { get; set; }

    /// <summary>What kind of phenomenon; empty when nobody said.</summary>
    public string Kind { get; set; } = "";

    /// <summary>GeoJSON geometry in mm on the plane, y down.</summary>
    public required string Geometry { get; set; }

    /// <summary>What a person wrote.</summary>
    public string Note { get; set; } = "";

    /// <summary>The run that proposed it.</summary>
    public Guid? RunId { get; init; }

    /// <summary>Whether it is only proposed; a person makes it a zone.</summary>
    public bool IsCandidate { get; set; }

    /// <summary>How sure the reading is, 0 to 1.</summary>
    public double? Confidence { get; init; }

    /// <summary>Why the reading proposes it.</summary>
    public string? Reason { get; init; }

    /// <summary>When it was made, UTC.</summary>
    public required DateTime CreatedAt { get; init; }

    /// <summary>When it was last changed, UTC.</summary>
    public DateTime UpdatedAt { get; set; }

    /// <summary>1, then one more with every change; a change names the revision it was made on.</summary>
    public int Revision { get; set; } = 1;

    /// <summary>When it was deleted, UTC; a deleted zone can be restored.</summary>
    public DateTime? DeletedAt { get; set; }

    /// <summary>What it was at each revision, oldest first.</summary>
    public List<ZoneChange> History { get; } = [];
}

/// <summary>A zone as it stood at one revision.</summary>
public sealed class ZoneChange
{
    /// <summary>The zone.</summary>
    public required Guid ZoneId { get; init; }

    /// <summary>The revision.</summary>
    public required int Revision { get; init; }

    /// <summary>"created", "changed", "deleted", "restored".</summary>
    public required string What { get; init; }

    /// <summary>Its name then.</summary>
    public required string Name { get; init; }

    /// <summary>Its kind then.</summary>
    public required string Kind { get; init; }

    /// <summary>Its geometry then, GeoJSON in mm.</summary>
    public required string Geometry { get; init; }

    /// <summary>Its note then.</summary>
    public required string Note { get; init; }

    /// <summary>Whether it was only proposed.</summary>
    public required bool IsCandidate { get; init; }

    /// <summary>When, UTC.</summary>
    public required DateTime At { get; init; }

    internal static ZoneChange Of(Zone zone, string what) => new()
    {
        ZoneId = zone.Id,
        Revision = zone.Revision,
        What = what,
        Name = zone.Name,
        Kind = zone.Kind,
        Geometry = zone.Geometry,
        Note = zone.Note,
        IsCandidate = zone.IsCandidate,
        At = zone.UpdatedAt,
    };
}
