using Sandarac.Analysis.Brushwork;
using Sandarac.Imaging;
using Sandarac.Imaging.Colour;

namespace Sandarac.Analysis.Changes;

/// <summary>Later minus baseline in CIELAB: L*, a* and b*, a plane each. Light of one band counts as grey.</summary>
internal sealed record ColourDifference(Plane[] Bands)
{
    /// <summary>Of two matched photographs.</summary>
    public static ColourDifference Of(Plane[] baseline, Plane[] later, ParallelOptions threads)
    {
        Plane[] bands = [.. Enumerable.Range(0, 3).Select(_ => new Plane(baseline[0].Width, baseline[0].Height))];
        Parallel.For(0, bands[0].Height, threads, y =>
        {
            for (var i = y * bands[0].Width; i < (y + 1) * bands[0].Width; i++)
            {
                var (from, to) = (Colour(baseline, i), Colour(later, i));
                (bands[0].Data[i], bands[1].Data[i], bands[2].Data[i]) = ((float)(to.L - from.L), (float)(to.A - from.A), (float)(to.B - from.B));
            }
        });
        return new ColourDifference(bands);
    }

    /// <summary>The same averaged over a Gaussian of so many pixels.</summary>
    public ColourDifference Averaged(double sigma, ParallelOptions threads) => new(GaussianMean.Of(Bands, sigma, threads));

    /// <summary>Distance in CIELAB (1976) at a pixel.</summary>
    public double At(int pixel) => Math.Sqrt(Bands.Sum(b => (double)b.Data[pixel] * b.Data[pixel]));

    /// <summary>A pixel's colour.</summary>
    public static CieLab Colour(Plane[] light, int i) => light.Length == 3 ? CieLab.FromLinear(light[0].Data[i], light[1].Data[i], light[2].Data[i]) : CieLab.FromLinear(light[0].Data[i], light[0].Data[i], light[0].Data[i]);
}
