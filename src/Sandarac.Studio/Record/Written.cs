namespace Sandarac.Studio.Record;

/// <summary>Something that people write into the record and may correct: what it was at every revision stays readable.</summary>
public abstract class Written
{
    /// <summary>Time-ordered key.</summary>
    public Guid Id { get; init; } = Guid.CreateVersion7();

    /// <summary>The painting.</summary>
    public Guid PaintingId { get; init; }

    /// <summary>When it was first written, UTC.</summary>
    public DateTime CreatedAt { get; init; }

    /// <summary>When it was last changed, UTC.</summary>
    public DateTime UpdatedAt { get; set; }

    /// <summary>1, then one more with every change; a change names the revision it was made on.</summary>
    public int Revision { get; set; }

    /// <summary>When it was taken out, UTC; it can be restored.</summary>
    public DateTime? DeletedAt { get; set; }
}

/// <summary>Something written, with what it says.</summary>
/// <typeparam name="TContent">What they write.</typeparam>
public abstract class Written<TContent> : Written where TContent : class, new()
{
    /// <summary>What is written, as it stands.</summary>
    public TContent Content { get; set; } = new();
}

/// <summary>What something written was at one revision.</summary>
public sealed class WrittenChange
{
    /// <summary>The sample, layer, stage or relation.</summary>
    public required Guid SubjectId { get; init; }

    /// <summary>The revision.</summary>
    public required int Revision { get; init; }

    /// <summary>"created", "changed", "deleted", "restored", "moved" with a corrected size of the painting.</summary>
    public required string What { get; init; }

    /// <summary>What was written then, as JSON.</summary>
    public required string Content { get; init; }

    /// <summary>When, UTC.</summary>
    public required DateTime At { get; init; }

    /// <summary>Who wrote it.</summary>
    public required string By { get; init; }
}
