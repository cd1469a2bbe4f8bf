using Sandarac.Analysis.Relief;
using Sandarac.Analysis.Tests.Support;

namespace Sandarac.Analysis.Tests.Relief;

/// <summary>Against NumPy and SciPy (References/Relief/SOURCE.md).</summary>
public class RoughnessTests
{
    private const double PixelUm = 150;

    [Theory]
    [InlineData("whole", -1)]
    [InlineData("weave or grain", 1)]
    [InlineData("undulation", 2)]
    public void Known_height_parameters_by_band(string map, int band)
    {
        var height = ReliefWitness.Map("height");
        var found = HeightParameters.Of(band < 0 ? height : WaveBand.All[band].Of(height, PixelUm)!)!;
        var theirs = ReliefWitness.Parameters(map);
        double[] ours = [found.Sa, found.Sq, found.Ssk, found.Sku];
        for (var k = 0; k < 4; k++) Assert.Equal(theirs[k], ours[k], 1e-4 * Math.Max(1, Math.Abs(theirs[k])));
    }

    /// <summary>ISO 16610-61: a wave of the cut-off's length comes through at one half.</summary>
    [Fact]
    public void Known_transmission_at_the_cut_off()
    {
        var wave = Synthetic.Of(400, 3, (x, _) => Math.Sin(2 * Math.PI * x / 20));
        var through = SurfaceFilter.LongWaves(wave, 20, new ParallelOptions());
        Assert.Equal(0.5, through.Row(1)[100..300].ToArray().Max() / wave.Row(1)[100..300].ToArray().Max(), 1e-3);
    }

    [Theory]
    [InlineData(0, 150, null)]
    [InlineData(0, 20, 40.0)]
    [InlineData(1, 150, 300.0)]
    [InlineData(1, 400, null)]
    [InlineData(2, 400, 800.0)]
    public void A_band_below_two_pixels_is_not_measured(int band, double pixel, double? shortest) => Assert.Equal(shortest, WaveBand.All[band].ShortestSeen(pixel));

    [Fact]
    public void Extreme_maps_have_no_parameters() => Assert.Null(HeightParameters.Of(Synthetic.Of(3, 3, (_, _) => double.NaN)));
}
