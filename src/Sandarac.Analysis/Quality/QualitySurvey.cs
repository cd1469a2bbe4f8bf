using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Levels;

namespace Sandarac.Analysis.Quality;

/// <summary>What one look at all pixels of a photograph gives: counts of every band, and blocks of the brightest.</summary>
/// <param name="Image">The photograph.</param>
/// <param name="Counts">Counts of each band.</param>
/// <param name="Band">The brightest band: the one that carries most signal and clips first.</param>
/// <param name="Blocks">Its blocks, row by row of tiles.</param>
/// <param name="Tone">Its tone curve.</param>
internal sealed record QualitySurvey(InputImage Image, IReadOnlyList<BandCounts> Counts, int Band, IReadOnlyList<QualityBlock> Blocks, ToneCurve Tone)
{
    private const int TileSize = 512;

    /// <summary>Value that stands for full light: the format's largest, or the greatest value in files of floating-point numbers that exceed 1.</summary>
    public double FullScale { get; } = Math.Max(Image.Image.Facts.FullScale, Counts[Band].Total > 0 && !Bands.AreSmallIntegers(Image.Image.Facts) ? Counts[Band].Quantile(1) : 0);

    /// <summary>Ends of the brightest band.</summary>
    public Clipping Ends => Clipping.Of(Counts[Band], FullScale);

    /// <summary>Looks at a photograph.</summary>
    public static QualitySurvey Of(InputImage image, RunContext context)
    {
        var facts = image.Image.Facts;
        var counts = BandCounts.Of([image], Bands.Count(facts), Bands.AreSmallIntegers(facts), w => Bands.Of(w[0], facts), context);
        var means = counts.Select(c => c.Quantile(0.5)).ToArray();
        var band = Array.IndexOf(means, means.Max());
        var blocks = TiledRun.Map([image], TileSize, 0, (tile, w) => QualityBlock.Of(Bands.Of(w[0], facts)[band], tile.Left, tile.Top), context);
        return new QualitySurvey(image, counts, band, [.. blocks.SelectMany(b => b)], ToneCurve.For(context.Value(PhotographQuality.Tone), facts.IccDescription));
    }

    /// <summary>Light of a value, 0 to about 1.</summary>
    public double Light(double value) => Tone.Light(value / FullScale);

    /// <summary><see cref="Light(double)"/> for many values: a table where values are whole numbers, for the curve costs a power each time.</summary>
    public Func<float, float> LightOfMany() => Bands.AreSmallIntegers(Image.Image.Facts) ? Tone.Table(FullScale) : v => (float)Light(v);

    /// <summary>Middle of each block as shares of the frame, and its light in stops below full scale; black blocks are left out.</summary>
    public IReadOnlyCollection<(double U, double V, double Stops)> BlockLight() =>
        [.. Blocks.Where(b => Light(b.Mean) > 0).Select(b => (b.X / Image.Image.Facts.Width, b.Y / Image.Image.Facts.Height, Math.Log2(Light(b.Mean))))];
}
