using Sandarac.Analysis.Unexplained;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Infrared;

/// <summary>Infrared and visible light as one number a pixel.</summary>
internal static class InfraredLight
{
    /// <summary>Mean of the bands (a converted colour camera has three); NaN where one has no data.</summary>
    public static Plane Mean(Plane[] bands) => Over(bands, v => v);

    /// <summary>Mean of the bands' natural logarithms; NaN where one has no data.</summary>
    public static Plane Logarithm(Plane[] bands) => Over(bands, v => float.IsFinite(v) ? ColourSamples.Log(v) : double.NaN);

    /// <summary>A contrast in per cent as a difference of natural logarithms: so much darker.</summary>
    public static double Depth(double percent) => -Math.Log(1 - percent / 100);

    private static Plane Over(Plane[] bands, Func<float, double> value)
    {
        var mean = new Plane(bands[0].Width, bands[0].Height);
        for (var i = 0; i < mean.Data.Length; i++)
        {
            var sum = 0.0;
            foreach (var band in bands) sum += value(band.Data[i]);
            mean.Data[i] = (float)(sum / bands.Length);
        }
        return mean;
    }
}
