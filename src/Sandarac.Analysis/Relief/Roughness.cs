using Sandarac.Imaging;

namespace Sandarac.Analysis.Relief;

/// <summary>Height parameters of ISO 25178-2 of one band of wavelengths.</summary>
/// <param name="Sa">Mean absolute height, um.</param>
/// <param name="Sq">Root mean square height, um.</param>
/// <param name="Ssk">Skewness: negative where furrows rule, positive where ridges do.</param>
/// <param name="Sku">Kurtosis: 3 for normally spread heights.</param>
public sealed record HeightParameters(double Sa, double Sq, double Ssk, double Sku)
{
    /// <summary>Of a height map about its mean; null when nothing is known. Skewness and kurtosis are NaN for a level surface.</summary>
    /// <param name="height">Height, um; NaN is left out.</param>
    public static HeightParameters? Of(Plane height)
    {
        var (mean, count) = (0.0, 0L);
        foreach (var v in height.Data)
            if (float.IsFinite(v)) (mean, count) = (mean + v, count + 1);
        if (count == 0) return null;
        mean /= count;
        var (a, s2, s3, s4) = (0.0, 0.0, 0.0, 0.0);
        foreach (var v in height.Data)
        {
            if (!float.IsFinite(v)) continue;
            var d = v - mean;
            (a, s2, s3, s4) = (a + Math.Abs(d), s2 + d * d, s3 + d * d * d, s4 + d * d * d * d);
        }
        var sq = Math.Sqrt(s2 / count);
        return new HeightParameters(a / count, sq, s3 / count / (sq * sq * sq), s4 / count / (s2 / count * (s2 / count)));
    }
}

/// <summary>A band of wavelengths.</summary>
/// <param name="Name">What a person calls it.</param>
/// <param name="ShortestUm">Shortest wavelength, um.</param>
/// <param name="LongestUm">Longest wavelength, um; infinite for no bound but the form that was taken away.</param>
public sealed record WaveBand(string Name, double ShortestUm, double LongestUm)
{
    /// <summary>Marks of the brush, weave or grain, undulation.</summary>
    public static IReadOnlyList<WaveBand> All { get; } = [new("brush", 3, 70), new("weave or grain", 70, 700), new("undulation", 700, double.PositiveInfinity)];

    /// <summary>The shortest wavelength of the band that pixels of this size show, um; null when they show nothing of it (Nyquist: two pixels).</summary>
    public double? ShortestSeen(double pixelUm) => 2 * pixelUm >= LongestUm ? null : Math.Max(ShortestUm, 2 * pixelUm);

    /// <summary>The part of a height map within the band: Gaussian filters of ISO 16610-61 at both ends; null when pixels of this size show nothing of it.</summary>
    /// <param name="height">Height without form.</param>
    /// <param name="pixelUm">Side of a pixel, um.</param>
    /// <param name="parallel">Threads.</param>
    public Plane? Of(Plane height, double pixelUm, ParallelOptions? parallel = null)
    {
        parallel ??= new ParallelOptions();
        if (ShortestSeen(pixelUm) is null) return null;
        var fine = ShortestUm > 2 * pixelUm ? SurfaceFilter.LongWaves(height, ShortestUm / pixelUm, parallel) : height;
        if (double.IsInfinity(LongestUm)) return fine;
        var coarse = SurfaceFilter.LongWaves(height, LongestUm / pixelUm, parallel);
        for (var i = 0; i < coarse.Data.Length; i++) coarse.Data[i] = fine.Data[i] - coarse.Data[i];
        return coarse;
    }
}
