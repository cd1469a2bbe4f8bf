namespace Sandarac.Analysis.Quality;

/// <summary>How an edge is rendered, by spatial frequency.</summary>
/// <param name="Mtf50">Frequency at which the modulation falls to one half, cycles per pixel.</param>
/// <param name="Mtf10">Frequency at which it falls to one tenth, at most 0.5.</param>
internal readonly record struct EdgeResponse(double Mtf50, double Mtf10)
{
    /// <summary>Samples of the edge profile in each pixel.</summary>
    public const int Oversampling = 4;

    /// <summary>Pixels of the profile on each side of the edge.</summary>
    public const int Reach = 16;

    /// <summary>Up to here the line spread is taken whole; from here to <see cref="Reach"/> it is faded out, so that the far texture does not count.</summary>
    private const double Flat = 10;

    private const double FrequencyStep = 0.005;

    /// <summary>
    /// Modulation transfer from an oversampled edge profile, after the edge method of ISO 12233 (from memory; a cosine-flanked window with a flat top instead of the Hamming window,
    /// which would sharpen soft edges): derivative to the line spread, window, Fourier modulus, divided by the transfer of the bins and of the central difference.
    /// </summary>
    /// <param name="profile">Edge spread, 2 x Reach x Oversampling samples, the edge in the middle.</param>
    /// <returns>Null when the modulation never falls to one half below 0.5 cycles per pixel or rises above 1.3 on the way: not a clean edge.</returns>
    public static EdgeResponse? Of(double[] profile)
    {
        var spread = LineSpread(profile);
        var zero = Modulus(spread, 0);
        double? mtf50 = null;
        var (before, f) = (1.0, FrequencyStep);
        for (; f <= 0.5 + 1e-9; f += FrequencyStep)
        {
            var here = Modulus(spread, f) / zero / Correction(f);
            if (here > 1.3) return null;
            if (mtf50 is null && here <= 0.5) mtf50 = Crossing(f, before, here, 0.5);
            if (mtf50 is not null && here <= 0.1) return new EdgeResponse(mtf50.Value, Crossing(f, before, here, 0.1));
            before = here;
        }
        return mtf50 is { } half ? new EdgeResponse(half, 0.5) : null;
    }

    private static double[] LineSpread(double[] profile)
    {
        var spread = new double[profile.Length];
        for (var i = 1; i < profile.Length - 1; i++)
        {
            var d = Math.Abs((i + 0.5) / Oversampling - Reach);
            var window = d <= Flat ? 1 : 0.5 + 0.5 * Math.Cos(Math.PI * (d - Flat) / (Reach - Flat));
            spread[i] = window * (profile[i + 1] - profile[i - 1]) / 2;
        }
        return spread;
    }

    private static double Modulus(double[] spread, double frequency)
    {
        double re = 0, im = 0;
        for (var i = 0; i < spread.Length; i++)
        {
            var (sin, cos) = Math.SinCos(2 * Math.PI * frequency * i / Oversampling);
            re += spread[i] * cos;
            im += spread[i] * sin;
        }
        return Math.Sqrt(re * re + im * im);
    }

    /// <summary>Transfer of a bin of 1/4 pixel, sin(x)/x with x = pi f / 4, and of the central difference over two bins, sin(2x)/(2x).</summary>
    private static double Correction(double frequency)
    {
        var x = Math.PI * frequency / Oversampling;
        return Math.Sin(x) / x * Math.Sin(2 * x) / (2 * x);
    }

    private static double Crossing(double f, double before, double here, double level) => f - FrequencyStep * (level - here) / (before - here);
}
