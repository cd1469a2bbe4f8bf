using Sandarac.Analysis.Unexplained;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Luminescence;

/// <summary>
/// How much varnish luminesces at each place, in its own spread: what the varnish's band of luminescence has beyond what paint gives it.
/// </summary>
/// <remarks>
/// Varnish of thickness t over paint that reflects R gives, in each band, E (1 + R)/2 (1 - q) + P q with q = exp(-u t): it glows where it stops ultraviolet, half of that comes back only
/// as far as the paint reflects it, and the paint's own luminescence P is excited by what passes (Beer-Lambert; R. de la Rie, Studies in Conservation 27 (1982) 1, from memory). Divided by (1 + R)/2
/// the first part is the same over every paint. The second follows the paint, so it changes with the visible colour and shows in the other bands too: these explain the varnish's band
/// within small blocks, in which varnish hardly changes (fixed effects, as in <see cref="ColourModel"/>), and what they leave is the varnish. It rises with the thickness, less and less steeply;
/// its zero and its unit stay unknown, so it is given from the painting's median in robust standard deviations.
/// </remarks>
internal static class VarnishModel
{
    /// <summary>Varnish at each reduced pixel; NaN where there is no data and in places that are left out.</summary>
    /// <param name="light">Both photographs.</param>
    /// <param name="band">The band in which the varnish luminesces most.</param>
    /// <param name="left">Pixels to leave out: later paint hides the varnish beneath.</param>
    /// <param name="detail">Side of the square over which it is smoothed (its median), pixels.</param>
    /// <returns>Null when too few pixels have data.</returns>
    public static Plane? Of(ReducedLight light, int band, bool[] left, int detail)
    {
        var (width, height) = (light.Other[0].Width, light.Other[0].Height);
        var others = Enumerable.Range(0, light.Other.Length).Where(b => b != band).ToArray();
        var (size, colour) = (others.Length + ColourSamples.CountTerms(light.Visible.Length), new double[light.Visible.Length]);
        double Sample(int pixel, double[] terms)
        {
            if (left[pixel]) return double.NaN;
            for (var b = 0; b < colour.Length; b++) colour[b] = light.Visible[b].Data[pixel];
            for (var b = 0; b < others.Length; b++) terms[b] = Glow(light, others[b], pixel);
            ColourSamples.Terms(colour, terms.AsSpan(others.Length));
            return Array.TrueForAll(terms, double.IsFinite) ? Glow(light, band, pixel) : double.NaN;
        }
        if (ColourSamples.Of(width, height, size, Sample).Fit() is not var (factors, _)) return null;
        var (varnish, sample) = (new Plane(width, height), new double[size]);
        for (var i = 0; i < varnish.Data.Length; i++)
        {
            var value = Sample(i, sample);
            for (var t = 0; t < size; t++) value -= factors[t] * sample[t];
            varnish.Data[i] = (float)value;
        }
        return InItsSpread(MedianFilter.Of(varnish, detail));
    }

    private static double Glow(ReducedLight light, int band, int pixel)
    {
        var paint = light.Visible.Length == light.Other.Length ? light.Visible[band].Data[pixel] : light.Visible.Average(v => v.Data[pixel]);
        return light.Other[band].Data[pixel] / (0.5 * (1 + paint));
    }

    private static Plane? InItsSpread(Plane varnish)
    {
        double[] values = [.. varnish.Data.Where(float.IsFinite).Select(v => (double)v)];
        var (middle, spread) = (Numbers.Robust.Median(values), Numbers.Robust.Sigma(values));
        if (!(spread > 1e-9)) return null;
        for (var i = 0; i < varnish.Data.Length; i++) varnish.Data[i] = (float)((varnish.Data[i] - middle) / spread);
        return varnish;
    }
}
