using Sandarac.Analysis.Numbers;

namespace Sandarac.Analysis.Quality;

/// <summary>Noise at one level of brightness.</summary>
/// <param name="Level">Mean value of the blocks, counts.</param>
/// <param name="Noise">Standard deviation of the noise, counts.</param>
/// <param name="Uncertainty">Half-width of the 95 % interval from the spread between blocks.</param>
/// <param name="Blocks">Blocks it rests on.</param>
internal sealed record NoiseLevel(double Level, double Noise, double Uncertainty, int Blocks);

/// <summary>Noise against brightness, from the blocks with the least coarse texture.</summary>
internal static class NoiseFigures
{
    /// <summary>Share of the blocks of a level that is used. They are chosen by coarse texture, which is independent of pixel noise, so that choosing
    /// them does not bias the noise downward.</summary>
    private const double Used = 0.25;

    private const int FewestBlocks = 8;

    /// <summary>Shadows, middle tones and highlights: thirds of the unclipped blocks by brightness. Fewer levels when blocks are few; none below 8 blocks.</summary>
    public static IReadOnlyList<NoiseLevel> Of(IEnumerable<QualityBlock> blocks, Clipping clipping)
    {
        var usable = blocks.Where(b => b.Least > clipping.LowLevel && b.Greatest < clipping.HighLevel).OrderBy(b => b.Mean).ToArray();
        var levels = Math.Min(3, usable.Length / FewestBlocks);
        return [.. Enumerable.Range(0, levels).Select(i => Level(usable[(usable.Length * i / levels)..(usable.Length * (i + 1) / levels)]))];
    }

    private static NoiseLevel Level(QualityBlock[] blocks)
    {
        var quiet = blocks.OrderBy(b => b.Texture).Take(Math.Max(FewestBlocks, (int)(Used * blocks.Length))).ToArray();
        double[] noise = [.. quiet.Select(b => b.Noise)];
        return new NoiseLevel(quiet.Average(b => b.Mean), Robust.Median(noise), Robust.MedianUncertainty(noise), quiet.Length);
    }
}
