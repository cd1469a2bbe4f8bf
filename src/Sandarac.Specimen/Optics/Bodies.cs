using System.Runtime.Intrinsics;

namespace Sandarac.Specimen.Optics;

/// <summary>
/// What the specimen is painted with. Orders of magnitude follow handbook experience (lead white hides in some 30 um and stops X-rays,
/// chalk does not;
/// carbon is dark in infrared, earths and smalt are not; lakes and resins luminesce, umber and copper do not); the exact figures are
/// chosen for
/// the specimen, not measured on any pigment.
/// </summary>
internal static class Bodies
{
    public static readonly Paint LeadWhite = Body("lead white", 0xF4EFE2, 0.11f, 0.060f, 0.93f, (0.27f, 0.31f, 0.37f), 0.25f, 6e-3f);
    public static readonly Paint Chalk = Body("chalk in glue", 0xEDE6D6, 0.050f, 0.040f, 0.90f, (0.30f, 0.33f, 0.38f), 0.08f, 1.7e-4f);
    public static readonly Paint Ochre = Body("yellow ochre", 0xB98A4A, 0.050f, 0.010f, 0.72f, (0.06f, 0.05f, 0.03f), 0.60f, 6e-4f);
    public static readonly Paint Umber = Body("umber", 0x4A3422, 0.034f, 0.010f, 0.42f, (0.020f, 0.018f, 0.016f), 0.90f, 7e-4f);
    public static readonly Paint RedEarth = Body("red earth", 0x8A4630, 0.040f, 0.022f, 0.55f, (0.04f, 0.02f, 0.02f), 0.80f, 8e-4f);
    public static readonly Paint Black = Body("bone black", 0x1C1A18, 0.020f, 0.014f, 0.045f, (0.015f, 0.015f, 0.016f), 1.2f, 5e-4f);
    public static readonly Paint Smalt = Body("smalt", 0x5B6F8C, 0.022f, 0.012f, 0.70f, (0.08f, 0.10f, 0.14f), 0.40f, 5e-4f);
    public static readonly Paint Vermilion = Body("vermilion", 0xB93A28, 0.090f, 0.050f, 0.88f, (0.05f, 0.02f, 0.02f), 1.0f, 8e-3f);
    public static readonly Paint Lake = Body("madder lake", 0x8C2F3A, 0.010f, 0.006f, 0.80f, (0.62f, 0.34f, 0.24f), 0.30f, 3e-4f);
    public static readonly Paint LeadTinYellow = Body("lead-tin yellow", 0xE6CF74, 0.10f, 0.055f, 0.90f, (0.12f, 0.12f, 0.08f), 0.50f,
        6.5e-3f);

    /// <summary>Carbon in a thin medium: the underdrawing.</summary>
    public static readonly Paint Charcoal = Body("carbon black", 0x2A2826, 0.030f, 0.030f, 0.03f, (0.02f, 0.02f, 0.02f), 1.2f, 3e-4f);

    /// <summary>A later retoucher's paint: matched by eye in daylight, dark in luminescence, unlike its surroundings in infrared.</summary>
    public static readonly Paint Retouch = Body("retouching, modern", 0x8C8C88, 0.070f, 0.040f, 0.34f, (0.035f, 0.030f, 0.045f), 2.0f,
        1.2e-3f);

    private static Paint Body(string name, int srgb, float s, float sInfrared, float rInfrared, (float R, float G, float B) glow,
        float uvOpacity, float xray)
    {
        var scattering = Vector128.Create(s, s, s * 1.08f, sInfrared);
        var blank = new Paint(name, Vector128<float>.Zero.WithElement(3, sInfrared * (float)KubelkaMunk.RatioFor(rInfrared)), scattering,
            Vector128.Create(glow.R, glow.G, glow.B, 0), uvOpacity, xray, [(name, 1f)]);
        return blank.Tinted(srgb);
    }
}
