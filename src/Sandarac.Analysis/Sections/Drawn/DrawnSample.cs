namespace Sandarac.Analysis.Sections.Drawn;

/// <summary>What a layer is taken for; decides its hatch.</summary>
public enum LayerKind
{
    /// <summary>Not said.</summary>
    Unknown,

    /// <summary>Ground.</summary>
    Ground,

    /// <summary>Priming, imprimatura, isolating layer.</summary>
    Priming,

    /// <summary>Underdrawing.</summary>
    Underdrawing,

    /// <summary>Paint.</summary>
    Paint,

    /// <summary>Metal leaf.</summary>
    Metal,

    /// <summary>Varnish, glaze of resin.</summary>
    Varnish,

    /// <summary>Dirt.</summary>
    Dirt,

    /// <summary>Retouching, overpaint.</summary>
    Retouching,
}

/// <summary>A layer of a column.</summary>
/// <param name="Number">"3", "2a".</param>
/// <param name="Kind">What it is taken for.</param>
/// <param name="Material">In the words of whoever described it.</param>
/// <param name="MeanUm">Mean thickness where it is, um; greater than 0.</param>
/// <param name="P5Um">5th percentile; null when not measured.</param>
/// <param name="P95Um">95th percentile.</param>
/// <param name="Coverage">Share of the section in which it is, 0 to 1.</param>
/// <param name="Colour">Its colour as "#rrggbb"; null when not measured.</param>
public sealed record DrawnLayer(string Number, LayerKind Kind, string Material, double MeanUm, double? P5Um = null, double? P95Um = null, double Coverage = 1, string? Colour = null);

/// <summary>A sample's column.</summary>
/// <param name="Name">The sample.</param>
/// <param name="Place">Where it was taken, in words.</param>
/// <param name="Layers">Its layers, the lowest first.</param>
public sealed record DrawnSample(string Name, string Place, IReadOnlyList<DrawnLayer> Layers);
