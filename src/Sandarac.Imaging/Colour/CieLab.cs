namespace Sandarac.Imaging.Colour;

/// <summary>A colour in CIELAB (CIE 15) under D65, 2 degrees.</summary>
/// <param name="L">Lightness, 0 black to 100 white.</param>
/// <param name="A">Green to red.</param>
/// <param name="B">Blue to yellow.</param>
public readonly record struct CieLab(double L, double A, double B)
{
    /// <summary>Distance from grey.</summary>
    public double Chroma => Math.Sqrt(A * A + B * B);

    /// <summary>From linear light of the sRGB primaries (IEC 61966-2-1:1999), 1 being white; values outside 0 to 1 are allowed.</summary>
    public static CieLab FromLinear(double red, double green, double blue)
    {
        var x = F((0.412453 * red + 0.357580 * green + 0.180423 * blue) / 0.95047);
        var y = F(0.212671 * red + 0.715160 * green + 0.072169 * blue);
        var z = F((0.019334 * red + 0.119193 * green + 0.950227 * blue) / 1.08883);
        return new CieLab(116 * y - 16, 500 * (x - y), 200 * (y - z));
    }

    /// <summary>Linear light of the sRGB primaries; outside 0 to 1 where the colour lies outside sRGB.</summary>
    public (double Red, double Green, double Blue) ToLinear()
    {
        var middle = (L + 16) / 116;
        var (x, y, z) = (0.95047 * Inverse(middle + A / 500), Inverse(middle), 1.08883 * Inverse(middle - B / 200));
        return (3.240479 * x - 1.537150 * y - 0.498535 * z, -0.969256 * x + 1.875992 * y + 0.041556 * z, 0.055648 * x - 0.204043 * y + 1.057311 * z);
    }

    private static double Inverse(double f) => f * f * f > 0.008856 ? f * f * f : (f - 16.0 / 116) / 7.787;

    private static double F(double t) => t > 0.008856 ? Math.Cbrt(t) : 7.787 * t + 16.0 / 116;
}
