using Sandarac.Imaging.Colour;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Changes;

/// <summary>The smallest change of lightness that these two photographs would have shown, in calm paint of the median light: by the limits in force and the noise measured.</summary>
internal static class Sensitivity
{
    /// <summary>Least difference in CIELAB (1976) of an even disc, or null when the disc is smaller than a pixel.</summary>
    /// <param name="map">The limits.</param>
    /// <param name="noise">The noise.</param>
    /// <param name="baseline">The baseline.</param>
    /// <param name="diameter">The disc's, pixels.</param>
    /// <param name="leastColour">Least difference that is proposed at all.</param>
    public static double? Of(ChangeMap map, DifferenceNoise noise, Plane[] baseline, double diameter, double leastColour)
    {
        if (diameter < 1) return null;
        var perUnit = Numbers.Robust.Median(Enumerable.Range(0, baseline[0].Data.Length).Where(i => i % 97 == 0 && float.IsFinite(baseline[0].Data[i])).Select(i => PerUnit(noise, baseline, i)));
        return map.Scales.Select((s, k) => Math.Max(perUnit * map.Limits[k] * s.Spread, leastColour) / Answer(diameter, s.Sigma)).Min();
    }

    /// <summary>Share of a disc's height that a Gaussian average leaves at its middle.</summary>
    private static double Answer(double diameter, double sigma) => 1 - Math.Exp(-diameter * diameter / (8 * sigma * sigma));

    /// <summary>Difference in CIELAB of a change of light, equal in all bands, that is as large as a pixel's noise.</summary>
    private static double PerUnit(DifferenceNoise noise, Plane[] baseline, int i)
    {
        var square = 0.0;
        for (var b = 0; b < baseline.Length; b++) square += Math.Pow(Math.Max(0, noise.Light(b, i)), 2) / noise.Variance(b, i);
        if (!(square > 0)) return double.NaN;
        var (share, light) = (1 / Math.Sqrt(square), ColourDifference.Colour(baseline, i));
        var (r, g, b1) = light.ToLinear();
        var other = CieLab.FromLinear(r * (1 + share), g * (1 + share), b1 * (1 + share));
        return Math.Sqrt(Math.Pow(other.L - light.L, 2) + Math.Pow(other.A - light.A, 2) + Math.Pow(other.B - light.B, 2));
    }
}
