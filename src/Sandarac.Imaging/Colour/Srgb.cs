namespace Sandarac.Imaging.Colour;

/// <summary>The tone curve of sRGB (IEC 61966-2-1:1999).</summary>
public static class Srgb
{
    /// <summary>Light, 0 to 1, of an encoded value, 0 to 1; continued beyond.</summary>
    public static double ToLight(double encoded) => encoded <= 0.04045 ? encoded / 12.92 : Math.Pow((encoded + 0.055) / 1.055, 2.4);

    /// <summary>The encoded value of light.</summary>
    public static double ToEncoded(double light) => light <= 0.0031308 ? 12.92 * light : 1.055 * Math.Pow(light, 1 / 2.4) - 0.055;
}
