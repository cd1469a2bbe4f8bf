using System.Numerics;
using System.Runtime.Intrinsics;
using Sandarac.Specimen.Output;
using Sandarac.Specimen.Randomness;

namespace Sandarac.Specimen.Scene;

/// <summary>Colours as a painter mixes them by eye: sRGB code values, 0 to 1.</summary>
internal static class Hue
{
    public static Vector3 Of(int hex) => new Vector3(hex >> 16 & 255, hex >> 8 & 255, hex & 255) / 255f;

    public static Vector3 Mix(Vector3 a, Vector3 b, float t) => Vector3.Lerp(a, b, Math.Clamp(t, 0, 1));

    public static float Light(Vector3 c) => 0.3f * c.X + 0.59f * c.Y + 0.11f * c.Z;

    /// <summary>A mixture is never twice the same: a little lighter or darker, warmer or cooler.</summary>
    public static Vector3 Vary(Vector3 c, ref Dice dice, float light, float warmth)
    {
        var (l, w) = ((float)dice.Bell(0, light), (float)dice.Bell(0, warmth));
        return Vector3.Clamp(c + new Vector3(l + w, l + 0.15f * w, l - w), new Vector3(0.04f), new Vector3(0.985f));
    }

    public static Vector128<float> Linear(Vector3 c) =>
        Vector128.Create((float)Encoding16.FromSrgb(c.X), (float)Encoding16.FromSrgb(c.Y), (float)Encoding16.FromSrgb(c.Z), 0);
}
