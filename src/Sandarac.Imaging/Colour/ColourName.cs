namespace Sandarac.Imaging.Colour;

/// <summary>A colour in words, coarse enough to be said of a painted area.</summary>
/// <param name="Hue">"red", "orange", "yellow", "green", "blue-green", "blue", "violet", "magenta", "pink", "brown", "white", "grey" or "black".</param>
/// <param name="Lightness">"very dark", "dark", "medium", "light" or "very light".</param>
/// <param name="Strength">"neutral", "weak", "moderate" or "strong".</param>
/// <remarks>Bounds are ours: hues by the hexcone of encoded sRGB, lightness and strength by CIELAB's L and chroma. They name, they do not measure.</remarks>
public sealed record ColourName(string Hue, string Lightness, string Strength)
{
    /// <summary>Chroma below which a colour is white, grey or black.</summary>
    private const double Neutral = 8;

    private static readonly (double Below, string Hue)[] Hues = [(15, "red"), (45, "orange"), (70, "yellow"), (160, "green"), (195, "blue-green"), (255, "blue"), (290, "violet"), (345, "magenta"), (360, "red")];

    /// <summary>Names a colour.</summary>
    /// <param name="red">Linear light, 1 being white; more counts as 1, less than 0 as 0.</param>
    /// <param name="green">The same.</param>
    /// <param name="blue">The same.</param>
    /// <returns>Null when a value is not a number.</returns>
    public static ColourName? FromLinear(double red, double green, double blue)
    {
        if (!double.IsFinite(red + green + blue)) return null;
        var (r, g, b) = (Math.Clamp(red, 0, 1), Math.Clamp(green, 0, 1), Math.Clamp(blue, 0, 1));
        var lab = CieLab.FromLinear(r, g, b);
        var lightness = lab.L switch { < 20 => "very dark", < 40 => "dark", < 65 => "medium", < 85 => "light", _ => "very light" };
        var strength = lab.Chroma switch { < Neutral => "neutral", < 25 => "weak", < 50 => "moderate", _ => "strong" };
        return new ColourName(lab.Chroma < Neutral ? NeutralHue(lab.L) : HueOf(Srgb.ToEncoded(r), Srgb.ToEncoded(g), Srgb.ToEncoded(b), lab.L), lightness, strength);
    }

    /// <summary>"dark moderate blue", "medium grey", "white".</summary>
    public override string ToString() => Hue is "white" or "black" ? Hue : Strength == "neutral" ? $"{Lightness} {Hue}" : $"{Lightness} {Strength} {Hue}";

    private static string NeutralHue(double lightness) => lightness switch { < 20 => "black", < 85 => "grey", _ => "white" };

    private static string HueOf(double r, double g, double b, double lightness)
    {
        var degrees = Degrees(r, g, b);
        var hue = Hues.First(h => degrees < h.Below).Hue;
        return hue switch
        {
            "orange" when lightness < 50 => "brown",
            "red" or "magenta" when lightness >= 65 => "pink",
            _ => hue,
        };
    }

    /// <summary>Angle on the hexcone, 0 red, 120 green, 240 blue, below 360 (A. R. Smith, Color gamut transform pairs, SIGGRAPH 1978).</summary>
    internal static double Degrees(double r, double g, double b)
    {
        var (most, least) = (Math.Max(r, Math.Max(g, b)), Math.Min(r, Math.Min(g, b)));
        if (most <= least) return 0;
        var sixths = most == r ? (g - b) / (most - least) : most == g ? 2 + (b - r) / (most - least) : 4 + (r - g) / (most - least);
        return 60 * (sixths < 0 ? sixths + 6 : sixths);
    }
}
