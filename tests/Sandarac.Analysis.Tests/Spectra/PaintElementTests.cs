using Sandarac.Analysis.Spectra;

namespace Sandarac.Analysis.Tests.Spectra;

/// <summary>Elements of drawn spectra of paints, whose lines are those of Sherman's equation by xraylib (References/Spectra/SOURCE.md): what is in them is known.</summary>
public class PaintElementTests
{
    public static TheoryData<string> Paints => [.. PaintSpectrum.All.Select(p => p.Paint)];

    [Theory]
    [MemberData(nameof(Paints))]
    public void Known_paints_show_their_elements_and_no_others(string name)
    {
        var (paint, scale) = (PaintSpectrum.Named(name), new EnergyScale(0, 0.02));
        var score = ElementScore.Of(paint, SpectrumAnalysis.Run(paint.Draw(11, 4e5, 140), new SpectrumSettings { Anode = paint.Anode }), 4e5, 140, scale);
        Assert.Empty(score.Missed);
        Assert.Empty(score.WronglyCertain);
        Assert.True(score.Wrong.Count <= 1, string.Join(", ", score.Wrong));
    }

    /// <summary>Over all paints, three detectors and three times of measuring: figures for docs/spectra.md.</summary>
    [Fact]
    [Trait("Speed", "slow")]
    public void Known_recall_and_precision()
    {
        var (found, missed, wrong, certain) = (0, 0, 0, 0);
        List<string> faults = [];
        foreach (var (seed, total, fwhm) in ((int, double, double)[])[(1, 1e6, 150), (2, 2e5, 125), (3, 5e4, 180), (4, 1e6, 180), (5, 5e4, 125)])
            foreach (var paint in PaintSpectrum.All)
            {
                var score = ElementScore.Of(paint, SpectrumAnalysis.Run(paint.Draw(seed, total, fwhm), new SpectrumSettings { Anode = paint.Anode }), total, fwhm, new EnergyScale(0, 0.02));
                (found, missed, wrong, certain) = (found + score.Found.Count, missed + score.Missed.Count, wrong + score.Wrong.Count, certain + score.WronglyCertain.Count);
                if (score.Missed.Count + score.Wrong.Count > 0) faults.Add($"{paint.Paint} {total} {fwhm}: missed {string.Join(' ', score.Missed)}, wrong {string.Join(' ', score.Wrong)}, certain {string.Join(' ', score.WronglyCertain)}");
            }
        TestContext.Current.TestOutputHelper!.WriteLine($"recall {found}/{found + missed}, precision {found}/{found + wrong}, wrongly certain {certain}\n{string.Join('\n', faults)}");
        Assert.True(found >= 0.97 * (found + missed) && found >= 0.97 * (found + wrong) && certain == 0, $"found {found}, missed {missed}, wrong {wrong}, of them certain {certain}\n{string.Join('\n', faults)}");
    }
}
