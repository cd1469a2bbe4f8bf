using System.Runtime.Intrinsics;
using Sandarac.Specimen.Output;

namespace Sandarac.Specimen.Optics;

/// <summary>A paint as the light sees it. Vectors hold R, G, B and infrared (900-1000 nm).</summary>
/// <param name="Name">What it is made of.</param>
/// <param name="K">Absorption per um.</param>
/// <param name="S">Scattering per um.</param>
/// <param name="Luminescence">Luminescence under 365 nm of a thick layer, R, G, B, as radiance relative to the brightest varnish.</param>
/// <param name="UvOpacity">Share of ultraviolet stopped per um (and of luminescence from beneath).</param>
/// <param name="XrayPerUm">Linear attenuation at the tube's effective energy, per um.</param>
/// <param name="Recipe">Shares by volume of the bodies it is mixed from.</param>
internal sealed record Paint(string Name, Vector128<float> K, Vector128<float> S, Vector128<float> Luminescence, float UvOpacity,
    float XrayPerUm,
    IReadOnlyList<(string Body, float Share)> Recipe)
{
    /// <summary>A paint with the body of this one, tinted so that a thick layer shows <paramref name="srgb"/> (0xRRGGBB). The infrared
    /// stays the body's own.</summary>
    public Paint Tinted(int srgb) => Tinted(Colour.FromHex(srgb));

    /// <summary>The same for linear R, G, B.</summary>
    public Paint Tinted(Vector128<float> target)
    {
        var k = K;
        for (var i = 0; i < 3; i++) k = k.WithElement(i, S[i] * (float)KubelkaMunk.RatioFor(Math.Clamp(target[i], 0.004, 0.97)));
        return this with { K = k };
    }

    /// <summary>Mixture by volume: K and S add in proportion (D. R. Duncan, Proc. Phys. Soc. 52 (1940) 390).</summary>
    public Paint Mixed(Paint other, float share) => this with
    {
        K = K + (other.K - K) * share,
        S = S + (other.S - S) * share,
        Luminescence = Luminescence + (other.Luminescence - Luminescence) * share,
        UvOpacity = UvOpacity + (other.UvOpacity - UvOpacity) * share,
        XrayPerUm = XrayPerUm + (other.XrayPerUm - XrayPerUm) * share,
        Recipe = [.. Recipe.Select(r => (r.Body, r.Share * (1 - share))).Concat(other.Recipe.Select(r => (r.Body, r.Share * share)))
            .GroupBy(r => r.Item1).Select(g => (g.Key, g.Sum(r => r.Item2))).Where(r => r.Item2 > 0)],
    };

    /// <summary>Reflectance of a thick layer in band <paramref name="band"/>.</summary>
    public double Masstone(int band) => KubelkaMunk.Infinite(K[band], S[band]);
}

/// <summary>Colours as linear light.</summary>
internal static class Colour
{
    /// <summary>Linear R, G, B (0-1) of an sRGB code 0xRRGGBB, fourth element 0.</summary>
    public static Vector128<float> FromHex(int srgb) => Vector128.Create(
        (float)Encoding16.FromSrgb((srgb >> 16 & 255) / 255.0),
        (float)Encoding16.FromSrgb((srgb >> 8 & 255) / 255.0),
        (float)Encoding16.FromSrgb((srgb & 255) / 255.0), 0);
}
