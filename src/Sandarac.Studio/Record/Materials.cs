namespace Sandarac.Studio.Record;

/// <summary>An X-ray fluorescence spectrum measured on the painting or on a sample.</summary>
public sealed class MeasuredSpectrum : Written<SpectrumContent>;

/// <summary>An element that the analysis of a spectrum listed.</summary>
/// <param name="Symbol">"Pb".</param>
/// <param name="Confidence">How sure.</param>
/// <param name="Reason">By which lines, and what stands against it.</param>
public sealed record SpectrumElement(string Symbol, Certainty Confidence, string Reason);

/// <summary>What is written of a spectrum.</summary>
public sealed record SpectrumContent
{
    /// <summary>What it is called: "P3, red of the flag".</summary>
    public string Name { get; init; } = "";

    /// <summary>Name of the file.</summary>
    public string FileName { get; init; } = "";

    /// <summary>SHA-256 of the file in the store.</summary>
    public string Sha256 { get; init; } = "";

    /// <summary>mm from the left edge; null when the place is not known.</summary>
    public double? X { get; init; }

    /// <summary>mm from the upper edge.</summary>
    public double? Y { get; init; }

    /// <summary>The zone in which it was measured; null for none.</summary>
    public Guid? ZoneId { get; init; }

    /// <summary>The layer of a section on which it was measured; null for the surface.</summary>
    public Guid? LayerId { get; init; }

    /// <summary>What the tube and the analysis were told, by the names of the analysis: anode, voltage, calibration.</summary>
    public IReadOnlyDictionary<string, string> Parameters { get; init; } = new Dictionary<string, string>();

    /// <summary>Version of the analysis that listed the elements; 0 before.</summary>
    public int AnalysisVersion { get; init; }

    /// <summary>What that analysis listed.</summary>
    public IReadOnlyList<SpectrumElement> Elements { get; init; } = [];

    /// <summary>Free words.</summary>
    public string Note { get; init; } = "";
}

/// <summary>That a person states a material somewhere on the painting.</summary>
public sealed class MaterialFound : Written<MaterialFoundContent>;

/// <summary>What is written of a material.</summary>
public sealed record MaterialFoundContent
{
    /// <summary>Its name in the table of materials, or another one, which has no dates.</summary>
    public string Material { get; init; } = "";

    /// <summary>The layer that it lies in.</summary>
    public Guid? LayerId { get; init; }

    /// <summary>The zone.</summary>
    public Guid? ZoneId { get; init; }

    /// <summary>The spectrum that it is read from.</summary>
    public Guid? SpectrumId { get; init; }

    /// <summary>How sure.</summary>
    public Certainty Confidence { get; init; } = Certainty.Possible;

    /// <summary>By what: "Raman, 785 nm, by the laboratory", "green particles in the section".</summary>
    public string Basis { get; init; } = "";

    /// <summary>Whether a person takes it for a later addition; null when nobody said.</summary>
    public bool? IsLater { get; init; }

    /// <summary>Free words.</summary>
    public string Note { get; init; } = "";
}
