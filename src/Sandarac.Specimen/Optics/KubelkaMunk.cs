using System.Runtime.Intrinsics;

namespace Sandarac.Specimen.Optics;

/// <summary>
/// Reflectance of a paint layer of finite thickness over a background, four bands at a time (R, G, B, infrared).
/// P. Kubelka, New Contributions to the Optics of Intensely Light-Scattering Materials, Part I, J. Opt. Soc. Am. 38 (1948) 448:
/// R = (1 - Rg (a - b coth bSX)) / (a - Rg + b coth bSX), a = 1 + K/S, b = sqrt(a^2 - 1).
/// No correction for reflection at the surface (Saunderson): the reflectances are those inside the medium.
/// </summary>
internal static class KubelkaMunk
{
    /// <summary>Reflectance over a background.</summary>
    /// <param name="background">Reflectance of what lies beneath, 0 to 1.</param>
    /// <param name="k">Absorption per um, not negative.</param>
    /// <param name="s">Scattering per um, greater than 0.</param>
    /// <param name="thicknessUm">Thickness, um; 0 gives the background.</param>
    public static Vector128<float> Over(Vector128<float> background, Vector128<float> k, Vector128<float> s, float thicknessUm)
    {
        if (thicknessUm <= 1e-4f) return background;
        var one = Vector128<float>.One;
        var a = one + k / s;
        // b = 0 (no absorption at all) is the limit b coth(bSX) = 1 / SX; a floor keeps one formula for all.
        var b = Vector128.Sqrt(Vector128.Max(a * a - one, Vector128.Create(1e-6f)));
        var e = Vector128.Exp(Vector128.Max(-2f * b * s * thicknessUm, Vector128.Create(-40f)));
        var bCoth = b * (one + e) / (one - e);
        return (one - background * (a - bCoth)) / (a - background + bCoth);
    }

    /// <summary>Reflectance of an infinitely thick layer, 1 + K/S - sqrt((K/S)^2 + 2 K/S) (P. Kubelka and F. Munk, Z. techn. Phys. 12
    /// (1931) 593).</summary>
    public static double Infinite(double k, double s) => 1 + k / s - Math.Sqrt(k / s * (k / s) + 2 * k / s);

    /// <summary>K/S of a paint whose thick layer reflects <paramref name="reflectance"/>: (1 - R)^2 / 2R.</summary>
    public static double RatioFor(double reflectance) => (1 - reflectance) * (1 - reflectance) / (2 * reflectance);
}
