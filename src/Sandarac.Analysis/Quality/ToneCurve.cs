namespace Sandarac.Analysis.Quality;

/// <summary>How a file's values encode light: stops and edges are measured in light, not in encoded values.</summary>
internal sealed class ToneCurve
{
    private readonly Func<double, double> _decode;

    private ToneCurve(string name, bool assumed, Func<double, double> decode) => (Name, IsAssumed, _decode) = (name, assumed, decode);

    /// <summary>"linear", "sRGB", "gamma 2.2", "gamma 1.8".</summary>
    public string Name { get; }

    /// <summary>Whether nothing in the file says so.</summary>
    public bool IsAssumed { get; }

    /// <summary>Relative light of a value that is given as a share of full scale.</summary>
    public double Light(double relative) => _decode(relative);

    /// <summary>The curve for whole numbers up to full scale, as a table: a power for each pixel takes long.</summary>
    public Func<float, float> Table(double fullScale)
    {
        var table = new float[(int)fullScale + 1];
        for (var v = 0; v < table.Length; v++) table[v] = (float)_decode(v / fullScale);
        return v => float.IsNaN(v) ? v : table[(int)v];
    }

    /// <summary>The curve by the parameter's choice, or by the profile's description.</summary>
    /// <param name="choice">"profile", "linear", "srgb", "gamma-2.2" or "gamma-1.8".</param>
    /// <param name="profile">Description of the ICC profile; null when untagged.</param>
    public static ToneCurve For(string choice, string? profile)
    {
        bool Says(string word) => profile?.Contains(word, StringComparison.OrdinalIgnoreCase) == true;
        return choice switch
        {
            "linear" => Linear(false),
            "srgb" => Srgb(false),
            "gamma-2.2" => Gamma(2.2),
            "gamma-1.8" => Gamma(1.8),
            _ when Says("linear") || Says("gamma 1.0") => Linear(false),
            _ when Says("srgb") || Says("P3") => Srgb(false),
            _ when Says("adobe") || Says("2.2") => Gamma(2.2),
            _ when Says("prophoto") || Says("romm") || Says("1.8") => Gamma(1.8),
            _ => Srgb(true),
        };
    }

    private static ToneCurve Linear(bool assumed) => new("linear", assumed, v => v);

    /// <summary>IEC 61966-2-1:1999.</summary>
    private static ToneCurve Srgb(bool assumed) => new("sRGB", assumed, Imaging.Colour.Srgb.ToLight);

    private static ToneCurve Gamma(double gamma) =>
        new(FormattableString.Invariant($"gamma {gamma}"), false, v => v <= 0 ? 0 : Math.Pow(v, gamma));
}
