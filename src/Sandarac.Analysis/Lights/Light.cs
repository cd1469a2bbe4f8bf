namespace Sandarac.Analysis.Lights;

/// <summary>The kind of a photograph, by the trade's codes. The canonical code is stored; aliases are understood and may be shown.</summary>
/// <param name="Code">Canonical code, upper case.</param>
/// <param name="Name">What a person calls it.</param>
/// <param name="Aliases">Other codes in use, upper case.</param>
public sealed record Light(string Code, string Name, params IReadOnlyList<string> Aliases)
{
    /// <summary>Visible light, even from both sides.</summary>
    public static readonly Light Visible = new("VIS", "visible", "VISIBLE", "NORMAL", "WHITE");

    /// <summary>Raking light.</summary>
    public static readonly Light Raking = new("RAK", "raking", "RL", "RAKING");

    /// <summary>Specular light.</summary>
    public static readonly Light Specular = new("SPEC", "specular", "SPECULAR");

    /// <summary>Transmitted light.</summary>
    public static readonly Light Transmitted = new("TRANS", "transmitted", "TL", "TRANSMITTED");

    /// <summary>Ultraviolet-induced visible luminescence.</summary>
    public static readonly Light Luminescence = new("UVL", "ultraviolet luminescence", "UVF", "UV");

    /// <summary>Reflected ultraviolet.</summary>
    public static readonly Light ReflectedUltraviolet = new("UVR", "reflected ultraviolet");

    /// <summary>Near-infrared photograph, silicon sensor.</summary>
    public static readonly Light Infrared = new("IR", "infrared", "IRP", "NIR", "INFRARED");

    /// <summary>Infrared reflectogram, beyond the silicon sensor.</summary>
    public static readonly Light Reflectogram = new("IRR", "infrared reflectogram");

    /// <summary>Transmitted infrared.</summary>
    public static readonly Light TransmittedInfrared = new("IRT", "transmitted infrared");

    /// <summary>X-radiograph.</summary>
    public static readonly Light Xray = new("XR", "X-radiograph", "XRAY", "X-RAY", "XRR");

    /// <summary>Micrograph of a paint section.</summary>
    public static readonly Light Section = new("XSEC", "paint section", "XS", "SECTION");

    /// <summary>Infrared false colour; computed, never photographed.</summary>
    public static readonly Light FalseColour = new("IRFC", "infrared false colour");

    /// <summary>All lights, in the order in which they are shown.</summary>
    public static IReadOnlyList<Light> All { get; } =
        [Visible, Raking, Specular, Transmitted, Luminescence, ReflectedUltraviolet, Infrared, Reflectogram, TransmittedInfrared, Xray, Section, FalseColour];

    /// <summary>The light with this canonical code or alias, or null.</summary>
    public static Light? Find(string code) =>
        All.FirstOrDefault(l => string.Equals(l.Code, code, StringComparison.OrdinalIgnoreCase))
        ?? All.FirstOrDefault(l => l.Aliases.Contains(code, StringComparer.OrdinalIgnoreCase));

    /// <inheritdoc/>
    public override string ToString() => Code;
}
