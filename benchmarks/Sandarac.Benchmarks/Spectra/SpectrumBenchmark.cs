using Sandarac.Analysis.Spectra;
using Sandarac.Analysis.Spectra.Lines;
using Sandarac.Benchmarks.Measuring;

namespace Sandarac.Benchmarks.Spectra;

/// <summary>
/// An XRF spectrum of 2048 channels with eight elements, drawn here: the whole analysis, down to each element's verdict, beside SciPy's first third of it: background by clipping, find_peaks, and Gaussians by curve_fit on the peaks found.
/// Then the same spectrum without its scale, which has to be found first.
/// </summary>
internal sealed class SpectrumBenchmark : Benchmark
{
    /// <summary>A page with a spectrum is there without a wait, ms.</summary>
    private const double AimMs = 250;

    private static readonly (string Element, double Counts)[] Paint = [("Ca", 3e4), ("Ti", 1e4), ("Fe", 6e4), ("Cu", 2e4), ("Zn", 4e4), ("Sr", 5e3), ("Ba", 1e4), ("Pb", 1e5)];

    public override string Name => "spectrum";

    public override string Summary => "an XRF spectrum of eight elements: scale, background, peaks, elements with their verdicts; beside SciPy's background, find_peaks and curve_fit alone";

    public override IEnumerable<Figure> Run(Settings settings)
    {
        var drawn = Drawn(new EnergyScale(0, 0.02));
        var known = new SpectrumSettings { Anode = "Rh", TubeKv = 40 };
        var ours = Milliseconds(() => SpectrumAnalysis.Run(drawn, known), settings);
        var peer = Peer(settings, drawn.Counts);
        yield return new Figure("whole analysis of 2048 channels", "ms", ours) { Peer = peer is [var seconds, ..] ? 1000 * Invariant.Number(seconds) : null, PeerName = "SciPy: background, find_peaks, curve_fit; no elements", Limit = new Limit(AimMs, false),
            Note = peer is [_, var peaks, ..] ? $"{SpectrumAnalysis.Run(drawn, known).Peaks.Count} peaks, SciPy's {peaks}" : "" };
        yield return new Figure("the same without a scale", "ms", Milliseconds(() => SpectrumAnalysis.Run(drawn with { Scale = null }, known), settings));
    }

    private static double Milliseconds(Action work, Settings settings)
    {
        work();
        return 1000 * Rounds.Median(Enumerable.Range(0, settings.Quick ? 3 : 15).Select(_ => Rounds.Seconds(work)));
    }

    /// <summary>Lines of the table, 150 eV at manganese Ka, on a continuum that falls; counting noise as a normal deviate.</summary>
    private static Spectrum Drawn(EnergyScale scale)
    {
        var (random, counts, resolution) = (new Random(1), new double[2048], Resolution.OfStated(150));
        for (var c = 0; c < counts.Length; c++)
        {
            var kev = scale.At(c);
            var mean = kev is < 1 or > 38 ? 0.2 : 20 + 300 * Math.Exp(-Math.Pow((kev - 14) / 9, 2));
            foreach (var (element, strongest) in Paint)
                foreach (var line in XrayLine.Of(element).Where(l => l.Kev < 38 && l.EdgeKev < 40))
                    mean += strongest * line.Relative * (line.Shell == 'M' ? 0.05 : 1) / (resolution.SigmaKev(line.Kev) / scale.KevPerChannel * 2.5066) * Math.Exp(-0.5 * Math.Pow((kev - line.Kev) / resolution.SigmaKev(line.Kev), 2));
            counts[c] = Math.Max(0, Math.Round(mean + Math.Sqrt(mean) * Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble())));
        }
        return new Spectrum("drawn", counts, scale, null, 40, []);
    }

    private static string[] Peer(Settings settings, IReadOnlyList<double> counts)
    {
        var path = Path.Combine(settings.Folder, "counts.txt");
        File.WriteAllLines(path, counts.Select(c => $"{c:R}"));
        return PythonPeer.Words("scipy_spectrum.py", path, settings.Quick ? "3" : "15");
    }
}
