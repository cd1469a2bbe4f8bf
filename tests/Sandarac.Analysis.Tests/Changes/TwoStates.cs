using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Tests.Changes;

/// <summary>An invented picture of three bands, photographed twice: continuous, so that it can be moved by parts of a pixel, with noise as sensors have it.</summary>
internal static class TwoStates
{
    /// <summary>Light at a place: waves of many lengths and directions, differently coloured; about 0.1 to 0.6.</summary>
    public static double Light(int band, double x, double y)
    {
        var sum = 0.0;
        for (var k = 1; k <= 12; k++)
        {
            var (turn, wave) = (k * 2.399963, 6 + 7.0 * k);
            sum += Math.Sin((x * Math.Cos(turn) + y * Math.Sin(turn)) * 2 * Math.PI / wave + k * k + 0.3 * band * (k % 3)) * Math.Sqrt(k);
        }
        return Math.Clamp(0.35 + 0.03 * sum - 0.05 * band, 0.02, 0.9);
    }

    /// <summary>Bands of the picture.</summary>
    public static Plane[] Picture(int width, int height, double dx = 0, double dy = 0) =>
        [.. Enumerable.Range(0, 3).Select(b => Synthetic.Of(width, height, (x, y) => Light(b, x - dx, y - dy)))];

    /// <summary>With noise of variance a + b light, normal.</summary>
    public static Plane[] Noisy(this Plane[] bands, int seed, double dark = 4e-7, double perLight = 2e-5)
    {
        var random = new Random(seed);
        double Normal() => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
        return [.. bands.Select(b => b.Select(v => (float)(v + Math.Sqrt(dark + perLight * Math.Max(0, v)) * Normal())))];
    }

    /// <summary>With a disc whose light is multiplied.</summary>
    public static Plane[] WithDisc(this Plane[] bands, double x, double y, double radius, double factor)
    {
        foreach (var band in bands)
            for (var v = 0; v < band.Height; v++)
                for (var u = 0; u < band.Width; u++) band[u, v] *= (float)(1 + (factor - 1) * Math.Clamp(0.5 + radius - Math.Sqrt(Math.Pow(u + 0.5 - x, 2) + Math.Pow(v + 0.5 - y, 2)), 0, 1));
        return bands;
    }
}
