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
    /// <param name="blocks">Blocks of one band.</param>
    /// <param name="clipping">Ends of the band: blocks that touch them are left out.</param>
    /// <param name="quantum">Step between neighbouring values of the file: 1 for whole numbers, 0 for floating point.</param>
    public static IReadOnlyList<NoiseLevel> Of(IEnumerable<QualityBlock> blocks, Clipping clipping, double quantum)
    {
        var usable = blocks.Where(b => b.Least > clipping.LowLevel && b.Greatest < clipping.HighLevel).OrderBy(b => b.Mean).ToArray();
        var levels = Math.Min(3, usable.Length / FewestBlocks);
        return [.. Enumerable.Range(0, levels).Select(i => Level(usable[(usable.Length * i / levels)..(usable.Length * (i + 1) / levels)], quantum))];
    }

    private static NoiseLevel Level(QualityBlock[] blocks, double quantum)
    {
        var quiet = blocks.OrderBy(b => b.Texture).Take(Math.Max(FewestBlocks, (int)(Used * blocks.Length))).ToArray();
        double[] noise = [.. quiet.Select(b => b.Noise)];
        // The median response of whole numbers is a whole number itself: half a step of it stays unknown.
        var (spread, step) = (Robust.MedianUncertainty(noise), quantum / 2 / QualityBlock.ResponseToSigma);
        return new NoiseLevel(quiet.Average(b => b.Mean), Robust.Median(noise), Math.Sqrt(spread * spread + step * step), quiet.Length);
    }
}
