using Sandarac.Analysis.Spectra;
using Sandarac.Analysis.Spectra.Calibration;
using Sandarac.Analysis.Spectra.Elements;
using Sandarac.Analysis.Spectra.Files;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Tests.Spectra;

public class SpectrumAnalysisTests
{
    private static SpectrumResult Run(string paint, int seed, double total = 4e5, double fwhm = 150, EnergyScale? scale = null) =>
        SpectrumAnalysis.Run(PaintSpectrum.Named(paint).Draw(seed, total, fwhm, scale), new SpectrumSettings { Anode = PaintSpectrum.Named(paint).Anode });

    private static ElementConfidence? Of(SpectrumResult result, string element) => result.Elements.SingleOrDefault(e => e.Element == element)?.Confidence;

    /// <summary>Peaks that are of one line, or of lines that lie within a tenth of a width: the mean of xraylib's energies by the strength that was drawn. Within 10 eV.</summary>
    [Theory]
    [InlineData("smalt", 1, 125)]
    [InlineData("emerald green", 2, 140)]
    [InlineData("umber", 3, 150)]
    [InlineData("strontium yellow with zinc white", 4, 160)]
    [InlineData("lead-tin yellow", 5, 170)]
    [InlineData("chalk with a little earth", 6, 180)]
    [InlineData("azurite with chalk", 7, 130)]
    public void Known_energies_of_peaks(string paint, int seed, double fwhm)
    {
        var (result, lines) = (Run(paint, seed, 1e6, fwhm), PaintSpectrum.Named(paint).Lines.Where(l => l.Element is not ("tube" or "continuum")).ToList());
        var checkedPeaks = 0;
        foreach (var peak in result.Peaks.Where(p => p.Significance > 20))
        {
            var near = lines.Where(l => Math.Abs(l.Kev - peak.Kev) < 1.2 * fwhm / 1000).ToList();
            if (near.Count == 0 || near.Sum(l => l.Share) * 1e6 < 0.8 * peak.Counts) continue;
            var mean = near.Sum(l => l.Kev * l.Share) / near.Sum(l => l.Share);
            if (Math.Sqrt(near.Sum(l => Math.Pow(l.Kev - mean, 2) * l.Share) / near.Sum(l => l.Share)) > 0.02) continue;
            checkedPeaks++;
            Assert.InRange(1000 * (peak.Kev - mean), -10, 10);
        }
        Assert.True(checkedPeaks >= 2, $"{checkedPeaks} peaks could be checked");
    }

    /// <summary>A file's scale that is off by 30 eV is put right by the lines, and that is said.</summary>
    [Fact]
    public void A_scale_that_is_off_is_corrected_and_said()
    {
        var drawn = PaintSpectrum.Named("smalt").Draw(4, 1e6, 150, new EnergyScale(0.03, 0.0201));
        var result = SpectrumAnalysis.Run(drawn with { Scale = new EnergyScale(0, 0.0201) }, new SpectrumSettings { Anode = "Rh" });
        Assert.Equal(0.03, result.Calibration.Scale.OffsetKev, 0.008);
        Assert.Equal(6.92, result.Calibration.Scale.At((6.925 - 0.03) / 0.0201), 0.01);
        Assert.Contains(result.Warnings, w => w.Code == "scale-corrected");
        Assert.NotNull(result.Calibration.OffsetUncertaintyKev);
    }

    [Fact]
    public void Two_known_lines_make_a_scale()
    {
        var result = SpectrumAnalysis.Run(PaintSpectrum.Named("umber").Draw(3, 4e5, 150, new EnergyScale(-0.3, 0.02), states: false), new SpectrumSettings { Anode = "W", Calibration = [new("Fe Ka", 335), new("Ca Ka", 199.5)] });
        Assert.Equal(CalibrationOrigin.KnownLines, result.Calibration.Origin);
        Assert.Equal(-0.3, result.Calibration.Scale.OffsetKev, 0.01);
    }

    /// <summary>What the overlaps that everyone knows allow (References/Spectra/data-booklet.csv): another line decides, or nothing does.</summary>
    [Fact]
    public void Overlaps_are_decided_by_another_line_or_not_at_all()
    {
        // As Ka lies under Pb La; As Kb at 11.73 keV stands by itself.
        Assert.Equal(ElementConfidence.Certain, Of(Run("emerald green", 1), "As"));
        Assert.NotEqual(ElementConfidence.CannotBeTold, Of(Run("emerald green with lead white", 1), "As"));
        Assert.Contains(Of(Run("little arsenic in lead white", 1), "As"), (ElementConfidence?[])[null, ElementConfidence.CannotBeTold]);
        // S Ka lies under Pb Ma, and has no other line that shows.
        Assert.Contains(Of(Run("chrome yellow with barytes", 1), "S"), (ElementConfidence?[])[null, ElementConfidence.CannotBeTold]);
        Assert.NotEqual(ElementConfidence.CannotBeTold, Of(Run("gesso", 1), "S"));
        // Ti Ka lies under Ba La: barytes alone shows no titanium, titanium white alone no barium, and both together both.
        Assert.Contains(Of(Run("barytes", 1), "Ti"), (ElementConfidence?[])[null, ElementConfidence.CannotBeTold]);
        Assert.Null(Of(Run("titanium white", 1), "Ba"));
        var both = Run("titanium white with barytes and zinc white", 1);
        Assert.NotEqual(ElementConfidence.CannotBeTold, Of(both, "Ti"));
        Assert.Equal(ElementConfidence.Certain, Of(both, "Ba"));
        // Co Ka lies under Fe Kb; Co Kb at 7.65 keV decides.
        Assert.NotEqual(ElementConfidence.CannotBeTold, Of(Run("earth with cobalt blue", 1), "Co"));
        Assert.Contains(Of(Run("earth", 1), "Co"), (ElementConfidence?[])[null, ElementConfidence.CannotBeTold]);
    }

    /// <summary>A weak spectrum of barium alone, whose further lines drown: either titanium or barium.</summary>
    [Fact]
    public void Of_two_that_explain_a_peak_equally_well_neither_is_told()
    {
        var random = new Random(5);
        double[] counts = [.. Enumerable.Range(0, 1024).Select(c => (double)PaintSpectrum.Poisson(random, 40 + 60 / (3.2 * 2.5066) * 10 * Math.Exp(-0.5 * Math.Pow((c - 224.6) / 3.2, 2))))];
        var result = SpectrumAnalysis.Run(new Spectrum("weak", counts, new EnergyScale(0, 0.02), null, 30, []), new SpectrumSettings { Anode = "Rh", FwhmEv = 150 });
        Assert.All(result.Elements.Where(e => e.Element is "Ti" or "Ba"), e => Assert.NotEqual(ElementConfidence.Certain, e.Confidence));
    }

    /// <summary>The tube's own lines are the tube's when its anode is named; when not, a warning says so and rhodium is at most possible.</summary>
    [Fact]
    public void The_anode_is_told_from_the_painting()
    {
        Assert.Null(Of(Run("lead white", 1), "Rh"));
        var unknown = SpectrumAnalysis.Run(PaintSpectrum.Named("viridian").Draw(1), new SpectrumSettings());
        Assert.Contains(unknown.Warnings, w => w.Code == "anode-unknown");
        Assert.Contains(Of(unknown, "Ag"), (ElementConfidence?[])[null, ElementConfidence.Possible, ElementConfidence.CannotBeTold]);
    }

    [Fact]
    public void Escape_and_piled_up_peaks_have_their_names()
    {
        var result = SpectrumAnalysis.Run(PaintSpectrum.Named("chalk with a little earth").Draw(1, 2e6, 150, pileUp: 0.004), new SpectrumSettings { Anode = "Rh" });
        Assert.Contains(result.Peaks, p => Math.Abs(p.Kev - 1.95) < 0.03 && p.Lines[0] == "Ca Ka escape");
        Assert.Contains(result.Peaks, p => Math.Abs(p.Kev - 2 * 3.691) < 0.03 && p.Lines[0] == "pulses piled up");
        Assert.Null(Of(result, "Ni"));
    }

    /// <summary>A real spectrum (References/Spectra/steel.spe, stainless steel excited at 16 keV): the elements that its companion lists as strong, the energies of the X-ray Data Booklet as the table has them.</summary>
    [Fact]
    public void Real_steel()
    {
        var result = SpectrumAnalysis.Run(SpectrumFile.Read(Path.Combine(AppContext.BaseDirectory, "References", "Spectra", "steel.spe")), new SpectrumSettings { BeamKev = 16 });
        foreach (var element in (string[])["Cr", "Fe", "Ni", "Cu"]) Assert.Equal(ElementConfidence.Certain, Of(result, element));
        // Manganese, 1.6 %, has Ka under Cr Kb and Kb under Fe Ka.
        Assert.Equal(ElementConfidence.CannotBeTold, Of(result, "Mn"));
        // No silver on the companion's list: the peak at 2.98 keV is as near to argon's line, which air always has.
        foreach (var element in (string[])["Ag", "Ar"]) Assert.Contains(Of(result, element), (ElementConfidence?[])[null, ElementConfidence.CannotBeTold]);
        Assert.DoesNotContain(result.Elements, e => e.Confidence == ElementConfidence.Certain && e.Element is not ("Cr" or "Fe" or "Ni" or "Cu"));
        foreach (var (kev, line) in ((double, string)[])[(5.412, "Cr Ka"), (6.400, "Fe Ka"), (7.058, "Fe Kb"), (7.472, "Ni Ka"), (8.265, "Ni Kb"), (8.905, "Cu Kb")])
        {
            var peak = result.Peaks.Single(p => p.Lines is [var first, ..] && first == line);
            Assert.InRange(1000 * (peak.Kev - kev), -10, 10);
        }
        // The companion's fit: 0.127 keV of noise and a Fano factor of 0.101 make 170 eV at manganese Ka, its gain is 11.928 eV a channel.
        Assert.InRange(result.FwhmEv.Value, 160, 175);
        Assert.Equal(11.928, 1000 * result.Calibration.Scale.KevPerChannel, 0.04);
    }

    [Fact]
    public void Same_file_and_settings_same_numbers()
    {
        SpectrumResult a = Run("smalt in lead white", 2), b = Run("smalt in lead white", 2);
        Assert.Equal(a.Elements.Select(e => (e.Element, e.Counts, e.Reason)), b.Elements.Select(e => (e.Element, e.Counts, e.Reason)));
        Assert.Equal(a.Peaks.Select(p => p.Kev), b.Peaks.Select(p => p.Kev));
    }

    [Theory]
    [InlineData("Xx")]
    [InlineData("Zn")]
    public void Invalid_anode(string anode) => Assert.Equal("anode", Assert.Throws<InputProblem>(() => new SpectrumSettings { Anode = anode }.Checked()).Code);

    [Fact]
    public void Invalid_settings_are_refused()
    {
        Assert.Equal("range", Assert.Throws<InputProblem>(() => new SpectrumSettings { TubeKv = double.NaN }.Checked()).Code);
        Assert.Equal("range", Assert.Throws<InputProblem>(() => new SpectrumSettings { FwhmEv = 5 }.Checked()).Code);
        Assert.Equal("calibration", Assert.Throws<InputProblem>(() => new SpectrumSettings { Calibration = [new("Fe Ka", 3)] }.Checked()).Code);
        Assert.Equal("calibration", Assert.Throws<InputProblem>(() => KnownLine.Parse("Fe Ka")).Code);
        Assert.Equal("unknown-line", Assert.Throws<InputProblem>(() => new KnownLine("Fe Za", 3).Kev).Code);
        Assert.Equal("calibration", Assert.Throws<InputProblem>(() => SpectrumAnalysis.Run(PaintSpectrum.Named("umber").Draw(3), new SpectrumSettings { Calibration = [new("Fe Ka", 100), new("Ca Ka", 300)] })).Code);
    }

    [Fact]
    public void Channels_that_are_wider_than_a_line_are_refused() =>
        Assert.Equal("spectrum-coarse", Assert.Throws<InputProblem>(() => SpectrumAnalysis.Run(new Spectrum("x", [.. Enumerable.Range(0, 4096).Select(i => i % 2 * 1e6)], new(-900, 0.9), null, null, []), new SpectrumSettings { Anode = "Rh" })).Code);

    /// <summary>Spectra without sense end in an answer or a problem, never in a defect.</summary>
    [Fact]
    public void Extreme_spectra_end_in_an_answer_or_a_problem()
    {
        var random = new Random(1);
        foreach (var counts in (double[][])[[.. Enumerable.Repeat(1.0, 64)], [.. Enumerable.Range(0, 64).Select(i => i == 30 ? 1e12 : 0)], [.. Enumerable.Range(0, 512).Select(_ => random.NextDouble() * 1e6)], [.. Enumerable.Range(0, 300).Select(i => 1e9 * Math.Exp(-i / 20.0))],
            new double[1024], [.. Enumerable.Repeat(1e12, 2048)], [.. Enumerable.Range(0, 4096).Select(i => i % 2 * 1e6)]])
            foreach (var scale in (EnergyScale?[])[null, new(0, 0.02), new(-900, 0.9), new(500, 0.001)])
            {
                var problem = Record.Exception(() => SpectrumAnalysis.Run(new Spectrum("x", counts, scale, null, null, []), new SpectrumSettings { Anode = "Rh" }));
                Assert.True(problem is null or InputProblem, $"{problem}");
            }
    }
}
