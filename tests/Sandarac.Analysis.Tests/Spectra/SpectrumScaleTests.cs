using Sandarac.Analysis.Spectra;
using Sandarac.Analysis.Spectra.Calibration;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Tests.Spectra;

/// <summary>Energy scales of drawn spectra (References/Spectra/SOURCE.md) that state none.</summary>
public class SpectrumScaleTests
{
    [Theory]
    [InlineData("smalt", 0.03, 0.0213)]
    [InlineData("lithopone", -0.08, 0.0155)]
    [InlineData("chalk with a little earth", 0.03, 0.0213)]
    [InlineData("azurite with chalk", 0.03, 0.0213)]
    public void A_scale_is_proposed_from_peaks_alone(string paint, double offset, double step)
    {
        var result = SpectrumAnalysis.Run(PaintSpectrum.Named(paint).Draw(3, 1e6, 160, new EnergyScale(offset, step), states: false), new SpectrumSettings { Anode = PaintSpectrum.Named(paint).Anode });
        Assert.Equal(CalibrationOrigin.Proposed, result.Calibration.Origin);
        foreach (var kev in (double[])[4, 8, 12]) Assert.Equal(kev, result.Calibration.Scale.At((kev - offset) / step), 0.015);
        Assert.Contains(result.Warnings, w => w.Code == "scale-proposed");
    }

    /// <summary>Each kind of answer on sixteen spectra; the share of each on many is measured by the slow test below.</summary>
    [Fact]
    public void A_scale_is_right_or_not_told()
    {
        foreach (var drawn in Enumerable.Range(30000, 16).Select(UnscaledSpectrum.Of))
            if (Told(drawn) is ({ } scale, _)) Assert.True(drawn.IsRight(scale), $"{drawn.Paint.Paint}: {scale}");
    }

    /// <summary>Two lines of one element fit any neighbour's as well: the scales are named, with what each takes the largest peaks for.</summary>
    [Fact]
    public void Where_more_than_one_scale_explains_the_peaks_none_is_told()
    {
        var counts = new double[1024];
        var random = new Random(4);
        for (var c = 0; c < counts.Length; c++) counts[c] = PaintSpectrum.Poisson(random, 15 + 900 * Math.Exp(-0.5 * Math.Pow((c - 320) / 3.3, 2)) + 120 * Math.Exp(-0.5 * Math.Pow((c - 353) / 3.4, 2)));
        var problem = Assert.Throws<InputProblem>(() => SpectrumAnalysis.Run(new Spectrum("x", counts, null, null, null, []), new SpectrumSettings { Anode = "Rh" }));
        Assert.Equal("scale-ambiguous", problem.Code);
        Assert.Contains("eV a channel from", problem.Message, StringComparison.Ordinal);
        Assert.Contains("=320", problem.Message, StringComparison.Ordinal);
    }

    /// <summary>Lead's L lines are bismuth's under another step: lead white alone does not tell.</summary>
    [Fact]
    public void Lead_white_alone_may_be_bismuth_white()
    {
        var problem = Assert.Throws<InputProblem>(() => SpectrumAnalysis.Run(PaintSpectrum.Named("lead white").Draw(3, 1e6, 160, new EnergyScale(0.03, 0.0213), states: false), new SpectrumSettings { Anode = "Rh" }));
        Assert.Equal("scale-ambiguous", problem.Code);
        Assert.Contains("Pb La=", problem.Message, StringComparison.Ordinal);
        Assert.Contains("Bi La=", problem.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Without_the_anode_no_scale_is_told() =>
        Assert.Contains("anode", Assert.Throws<InputProblem>(() => SpectrumAnalysis.Run(PaintSpectrum.Named("smalt").Draw(3, states: false), new SpectrumSettings())).Remedy, StringComparison.Ordinal);

    /// <summary>A range that ends at 25 keV, full of counts, says nothing of the tube: cadmium's K edge at 26.7 keV (xraylib) may be excited, and its line at 23.2 keV is cadmium's.</summary>
    [Fact]
    public void A_range_that_is_cut_off_hides_no_element()
    {
        var drawn = PaintSpectrum.Named("cadmium red with barytes").Draw(2, 1e6, 150, channels: 1250) with { TubeKv = null };
        var result = SpectrumAnalysis.Run(drawn, new SpectrumSettings { Anode = PaintSpectrum.Named("cadmium red with barytes").Anode });
        Assert.Contains(result.Elements, e => e.Element == "Cd" && e.Lines.Any(l => l.Name == "Ka" && l.IsOwn));
        Assert.Contains("full of counts", result.LimitKev.Origin, StringComparison.Ordinal);
    }

    /// <summary>Over 600 spectra: figures for docs/spectra.md.</summary>
    [Fact]
    [Trait("Speed", "slow")]
    public void Known_share_of_scales_right_wrong_and_not_told()
    {
        var answers = Enumerable.Range(40000, 600).Select(UnscaledSpectrum.Of).Select(d => (d.Elements, Seed: d.Paint.Paint, Answer: Told(d) is var (scale, why) && scale is null ? why! : d.IsRight(scale!) ? "right" : "wrong")).ToList();
        var table = string.Join('\n', answers.GroupBy(a => a.Elements).OrderBy(g => g.Key).Select(g => $"{g.Key}: {string.Join(", ", g.CountBy(a => a.Answer).OrderBy(c => c.Key, StringComparer.Ordinal).Select(c => $"{c.Key} {c.Value}"))}"));
        TestContext.Current.TestOutputHelper!.WriteLine($"{table}\n{string.Join(", ", answers.CountBy(a => a.Answer).Select(c => $"{c.Key} {c.Value}"))}");
        Assert.True(answers.Count(a => a.Answer == "wrong") <= 0.01 * answers.Count, $"{table}\n{string.Join('\n', answers.Where(a => a.Answer == "wrong"))}");
        Assert.True(answers.Count(a => a.Answer == "right") >= 0.7 * answers.Count, table);
    }

    private static (EnergyScale? Scale, string? Why) Told(UnscaledSpectrum drawn)
    {
        try
        {
            return (SpectrumAnalysis.Run(drawn.Spectrum, new SpectrumSettings { Anode = drawn.Paint.Anode }).Calibration.Scale, null);
        }
        catch (InputProblem problem) when (problem.Code is "no-scale" or "scale-ambiguous")
        {
            return (null, problem.Code);
        }
    }
}
