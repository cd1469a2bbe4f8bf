namespace Sandarac.Studio.Record;

/// <summary>A paint sample: where, why and by whom it was taken, how it is kept and what it shows.</summary>
public sealed class Sample : Written<SampleContent>;

/// <summary>Where on a painting a sample was taken from.</summary>
public enum SampleSite
{
    /// <summary>Nobody said.</summary>
    NotStated,

    /// <summary>At a damage that was there.</summary>
    ExistingDamage,

    /// <summary>At an edge, where a frame covers it.</summary>
    Edge,

    /// <summary>In sound paint.</summary>
    SoundPaint,
}

/// <summary>The record of a sample. The fields follow the subject matter of EN 16085:2012, whose scope alone was read; the list of fields is from memory of practice.</summary>
public sealed record SampleContent
{
    /// <summary>Its number or mark; each once on a painting.</summary>
    public string Number { get; init; } = "";

    /// <summary>mm from the left edge; null when the place is not known.</summary>
    public double? X { get; init; }

    /// <summary>mm from the upper edge; null when the place is not known.</summary>
    public double? Y { get; init; }

    /// <summary>The question that it was to answer.</summary>
    public string Why { get; init; } = "";

    /// <summary>Who allowed it.</summary>
    public string AuthorisedBy { get; init; } = "";

    /// <summary>Who took it.</summary>
    public string TakenBy { get; init; } = "";

    /// <summary>When it was taken.</summary>
    public DateOnly? TakenOn { get; init; }

    /// <summary>What it was taken from.</summary>
    public SampleSite Site { get; init; }

    /// <summary>Scalpel, needle.</summary>
    public string Tool { get; init; } = "";

    /// <summary>How large it is.</summary>
    public string Size { get; init; } = "";

    /// <summary>Flake, scraping, fibre.</summary>
    public string Form { get; init; } = "";

    /// <summary>What it was divided into.</summary>
    public string SubSamples { get; init; } = "";

    /// <summary>What it was embedded in.</summary>
    public string Resin { get; init; } = "";

    /// <summary>What it was coated with before, so that the resin would not soak in.</summary>
    public string Precoat { get; init; } = "";

    /// <summary>Where it is kept.</summary>
    public string Storage { get; init; } = "";

    /// <summary>What is left of it.</summary>
    public string Remains { get; init; } = "";

    /// <summary>Its photographs under the microscope.</summary>
    public IReadOnlyList<Guid> Micrographs { get; init; } = [];

    /// <summary>What is seen.</summary>
    public string Observation { get; init; } = "";

    /// <summary>What is made of it.</summary>
    public string Interpretation { get; init; } = "";
}
