using Sandarac.Imaging;

namespace Sandarac.Analysis.Unexplained;

/// <summary>
/// How much of another light, luminescence or infrared, paint of a colour has on this painting: its logarithm as a second-degree polynomial in the logarithms of visible light,
/// equal everywhere but for a level that varies from place to place with varnish and lamps.
/// </summary>
/// <remarks>
/// Fitted to differences within small blocks, so that the level drops out (the fixed-effects or within estimator of panel data), with weights after Tukey, so that
/// what does not follow, such as later additions, has no part in it. Varnish that glows over paint glows the less the darker the paint: half of what it emits goes down and comes back
/// as far as the paint reflects it (R. de la Rie, Studies in Conservation 27 (1982) 1, from memory).
/// </remarks>
internal sealed class ColourModel
{
    private readonly double[] _factors;

    private ColourModel(double[] factors, double scatter) => (_factors, Scatter) = (factors, scatter);

    /// <summary>Robust standard deviation of what remains within a block, natural logarithm.</summary>
    public double Scatter { get; }

    /// <summary>Fits one band of another light on visible light.</summary>
    /// <returns>Null when too few pixels have data, or the visible light does not vary.</returns>
    public static ColourModel? Fit(Plane light, Plane[] visible) => ColourSamples.Of(light, visible).Fit() is var (factors, scatter) ? new ColourModel(factors, scatter) : null;

    /// <summary>Natural logarithm of that light less what the colour explains; NaN without data. The level is still in it.</summary>
    public Plane Unexplained(Plane light, Plane[] visible)
    {
        var result = new Plane(light.Width, light.Height);
        var (logs, terms) = (new double[visible.Length], new double[_factors.Length]);
        for (var i = 0; i < result.Data.Length; i++)
            result.Data[i] = ColourSamples.Logs(visible, i, logs) && float.IsFinite(light.Data[i]) ? (float)(ColourSamples.Log(light.Data[i]) - Explained(logs, terms)) : float.NaN;
        return result;
    }

    private double Explained(double[] logs, double[] terms)
    {
        ColourSamples.Terms(logs, terms);
        var sum = 0.0;
        for (var t = 0; t < terms.Length; t++) sum += _factors[t] * terms[t];
        return sum;
    }
}
