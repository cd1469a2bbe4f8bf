namespace Sandarac.Analysis.Alignment.Pairs;

/// <summary>Which structure of two photographs is compared.</summary>
public enum StructureKind
{
    /// <summary>Directions of change, light-to-dark and dark-to-light alike: for lights that turn contrasts round.</summary>
    Directions,

    /// <summary>Changes with their sign, up to one sign for a whole patch: closer where contrasts are alike, and less misled by the shading of relief.</summary>
    Gradients,

    /// <summary>Directions of change of colour, brightness left out: relief and its shadows change brightness alone, so a raking lamp does not draw them aside.</summary>
    Colours,
}
