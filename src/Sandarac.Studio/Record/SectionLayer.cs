namespace Sandarac.Studio.Record;

/// <summary>A layer of a sample's cross-section.</summary>
public sealed class SectionLayer : Written<LayerContent>;

/// <summary>What is written of a layer.</summary>
public sealed record LayerContent
{
    /// <summary>The sample.</summary>
    public Guid SampleId { get; init; }

    /// <summary>1 at the bottom, then upwards; sublayers 2a, 2b.</summary>
    public string Number { get; init; } = "";

    /// <summary>What it is called: "toned priming".</summary>
    public string Name { get; init; } = "";

    /// <summary>What it consists of, as far as known.</summary>
    public string Materials { get; init; } = "";

    /// <summary>What is seen.</summary>
    public string Observation { get; init; } = "";

    /// <summary>What is made of it.</summary>
    public string Interpretation { get; init; } = "";

    /// <summary>Mean thickness, um; null when not measured.</summary>
    public double? MeanUm { get; init; }

    /// <summary>Thinnest, um.</summary>
    public double? LowUm { get; init; }

    /// <summary>Thickest, um.</summary>
    public double? HighUm { get; init; }

    /// <summary>Where the thickness comes from: "ruler in the microscope, five places".</summary>
    public string ThicknessOrigin { get; init; } = "";

    /// <summary>The run of a reading that measured it; null when it was entered by hand.</summary>
    public Guid? RunId { get; init; }

    /// <summary>Which of that run's layers it is, counted from 1 at the bottom; null when a person only named the run.</summary>
    public int? RunLayer { get; init; }

    /// <summary>The stage of the build-up that it shows.</summary>
    public Guid? StageId { get; init; }
}
