using System.Globalization;
using MathNet.Numerics.LinearAlgebra;
using Sandarac.Analysis.Spectra;
using Sandarac.Analysis.Spectra.Calibration;
using Sandarac.Analysis.Spectra.Fitting;

namespace Sandarac.Analysis.Tests.Spectra;

public class SpectrumFitTests
{
    private static IEnumerable<string[]> Rows(string name) => File.ReadLines(Path.Combine(AppContext.BaseDirectory, "References", "Spectra", name)).Skip(1).Select(l => l.Split(','));

    private static double[] Numbers(string text, char separator = ' ') => [.. text.Split(separator).Select(v => double.Parse(v, CultureInfo.InvariantCulture))];

    /// <summary>scipy.optimize.nnls (References/Spectra/SOURCE.md).</summary>
    [Fact]
    public void Known_non_negative_least_squares_of_SciPy()
    {
        foreach (var rows in Rows("nnls.csv").GroupBy(r => r[0]))
        {
            var a = Matrix<double>.Build.DenseOfRowArrays(rows.Where(r => r[1] == "row").Select(r => Numbers(r[2])[..^1]));
            var b = Vector<double>.Build.DenseOfEnumerable(rows.Where(r => r[1] == "row").Select(r => Numbers(r[2])[^1]));
            var wanted = Numbers(rows.Single(r => r[1] == "solution")[2]);
            var found = NonNegative.Solve([.. a.TransposeThisAndMultiply(a).Enumerate()], [.. a.TransposeThisAndMultiply(b)], [.. Enumerable.Range(0, wanted.Length)]);
            for (var i = 0; i < wanted.Length; i++) Assert.Equal(wanted[i], found.Amounts[i], 1e-6);
        }
    }

    /// <summary>scipy.stats.linregress with Student's t (References/Spectra/SOURCE.md).</summary>
    [Fact]
    public void Known_line_through_places_of_SciPy()
    {
        var wanted = Numbers(string.Join(' ', Rows("line.csv").Single()));
        double[] channels = [185.2, 320.1, 402.4, 527.6, 591.0, 738.3], energies = [3.6917, 6.3995, 8.0411, 10.5436, 11.8140, 14.7648];
        var line = EnergyCalibration.Of([.. channels.Zip(energies, (c, e) => ("", c, e, 1.0))], CalibrationOrigin.KnownLines)!;
        Assert.Equal(wanted[0], line.Scale.KevPerChannel, 1e-12);
        Assert.Equal(wanted[1], line.Scale.OffsetKev, 1e-9);
        Assert.Equal(wanted[2], line.StepUncertaintyKev!.Value, 1e-12);
        Assert.Equal(wanted[3], line.OffsetUncertaintyKev!.Value, 1e-9);
    }

    [Fact]
    public void Two_lines_say_nothing_of_their_own_uncertainty()
    {
        var line = EnergyCalibration.Of([("Fe Ka", 320, 6.3995, 1), ("Pb Lb", 630, 12.6144, 1)], CalibrationOrigin.KnownLines)!;
        Assert.Null(line.OffsetUncertaintyKev);
        Assert.Equal(6.3995, line.Scale.At(320), 1e-12);
        Assert.Null(EnergyCalibration.Of([("Fe Ka", 320, 6.3995, 1), ("Pb Lb", 320, 12.6144, 1)], CalibrationOrigin.KnownLines));
    }

    /// <summary>A drawn background of known shape under peaks narrower than the window: found within a twentieth and five standard deviations of the counting noise that the smoothing over seven channels leaves.</summary>
    [Fact]
    public void Known_background_is_found_under_peaks()
    {
        var (random, truth, counts) = (new Random(3), new double[1500], new double[1500]);
        for (var c = 0; c < truth.Length; c++)
        {
            truth[c] = 100 + 3000 * Math.Exp(-Math.Pow((c - 500) / 300.0, 2));
            var peaks = ((int, double)[])[(300, 2e4), (480, 1e5), (510, 3e4), (900, 5e3)];
            counts[c] = PaintSpectrum.Poisson(random, truth[c] + peaks.Sum(p => p.Item2 / (4 * 2.5066) * Math.Exp(-0.5 * Math.Pow((c - p.Item1) / 4.0, 2))));
        }
        var found = Snip.Background(Snip.Smoothed(counts, _ => 3), _ => 24);
        for (var c = 60; c < 1440; c++) Assert.InRange(Math.Abs(found[c] - truth[c]), 0, 0.05 * truth[c] + 5 * Math.Sqrt(truth[c] / 7));
        // Clipping follows the lower side of the noise that the smoothing leaves: it lies a twentieth low here, which the fit, free to raise it by as much and more, makes good.
        Assert.InRange(Enumerable.Range(60, 1380).Average(c => found[c] / truth[c]), 0.93, 1.01);
    }

    /// <summary>Places of drawn Gaussian peaks: their errors over the stated standard uncertainties have a standard deviation of about 1 (Poisson counting, 400 peaks).</summary>
    [Fact]
    public void Stated_uncertainties_of_places_are_those_of_repeated_measuring()
    {
        List<double> pulls = [];
        for (var seed = 0; seed < 400; seed++)
        {
            var (random, counts, at) = (new Random(seed), new double[200], 100 + seed % 10 / 10.0);
            for (var c = 0; c < counts.Length; c++) counts[c] = PaintSpectrum.Poisson(random, 20 + 2000 / (4 * 2.5066) * Math.Exp(-0.5 * Math.Pow((c - at) / 4.0, 2)));
            var peak = PeakFit.Of(counts, [.. Enumerable.Repeat(20.0, 200)], PeakSearch.Find(counts, counts, _ => 4, 6), _ => 4, false).MaxBy(p => p.Significance)!;
            pulls.Add((peak.Channel - at) / peak.ChannelSigma);
        }
        Assert.InRange(pulls.Average(), -0.2, 0.2);
        Assert.InRange(Math.Sqrt(pulls.Average(p => p * p)), 0.85, 1.15);
    }

    /// <summary>Noise alone has hardly a peak of five standard deviations: at most one in a hundred thousand channels.</summary>
    [Fact]
    public void Noise_has_no_peaks()
    {
        var found = 0;
        for (var seed = 0; seed < 50; seed++)
        {
            var random = new Random(seed);
            double[] counts = [.. Enumerable.Range(0, 2000).Select(_ => (double)PaintSpectrum.Poisson(random, 30))];
            found += PeakSearch.Find(counts, [.. Enumerable.Repeat(30.0, 2000)], _ => 4, 5).Count;
        }
        Assert.True(found <= 1, $"{found}");
    }
}
