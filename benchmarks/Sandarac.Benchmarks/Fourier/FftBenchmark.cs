using Sandarac.Benchmarks.Measuring;

namespace Sandarac.Benchmarks.Fourier;

/// <summary>The transform of real planes beside SciPy's (pocketfft), float32 on both sides, new output arrays on both sides.</summary>
internal sealed class FftBenchmark : Benchmark
{
    private const string Python = "/usr/bin/python3";

    /// <summary>The same as <see cref="FftWork"/>: arguments width, height, direction, seconds; prints the median in ms.</summary>
    private const string PeerWork = """
        import statistics, sys, time
        import numpy, scipy.fft
        width, height, direction, seconds = int(sys.argv[1]), int(sys.argv[2]), sys.argv[3], float(sys.argv[4])
        plane = numpy.random.default_rng(1).random((height, width), dtype=numpy.float32)
        spectrum = scipy.fft.rfft2(plane)
        assert spectrum.dtype == numpy.complex64
        def transform():
            if direction == 'forward': scipy.fft.rfft2(plane, workers=1)
            else: scipy.fft.irfft2(spectrum, s=plane.shape, workers=1)
        def repeat():
            times, begun = [], time.perf_counter()
            while len(times) < 5 or time.perf_counter() - begun < seconds:
                start = time.perf_counter(); transform(); times.append(time.perf_counter() - start)
            return times
        repeat()
        print(statistics.median(repeat()) * 1e3)
        """;

    public override string Name => "fft";

    public override string Summary => "2-D transforms of real float32 planes beside SciPy, each in a process of its own";

    public override IEnumerable<Figure> Run(Settings settings)
    {
        var peer = PeerName();
        (int Width, int Height)[] sizes = settings.Quick ? [(1024, 1024)] : [(1024, 1024), (1000, 1000), (1009, 1009), (2048, 2048)];
        foreach (var (w, h) in sizes)
            foreach (var direction in (string[])["forward", "inverse"])
                foreach (var threads in (int[])[1, Environment.ProcessorCount])
                    yield return Compare(settings, peer, w, h, direction, threads);
    }

    private static Figure Compare(Settings settings, string? peer, int width, int height, string direction, int threads)
    {
        var (rounds, seconds) = settings.Quick ? (1, 0.2) : (5, 0.5);
        ChildResult Ours() => Child.Ours("fft", $"{width}", $"{height}", $"{threads}", direction, $"{seconds}");
        ChildResult Peers() => Child.Run(Child.Of(Python, "-c", PeerWork, $"{width}", $"{height}", direction, $"{seconds}"));
        var (theirs, ours) = Rounds.Alternate(rounds, () => peer is null ? null : Peers(), Ours);
        return new Figure($"{width} x {height} {direction}, {(threads == 1 ? "1 thread" : $"{threads} threads")}", "ms", Median(ours))
        {
            Peer = peer is null ? null : Median(theirs),
            PeerName = peer ?? "peer not present: apt-get install python3-scipy",
            Limit = (width, direction, threads) == (1024, "forward", 1) ? new Limit(2, true) : null,
            Note = $"peak memory {ours.Max(r => r?.PeakMegabytes):0} MB, peer {theirs.Max(r => r?.PeakMegabytes):0} MB",
        };
    }

    private static double Median(IEnumerable<ChildResult?> results) => Rounds.Median(results.Select(r => Invariant.Number(r!.Output)));

    private static string? PeerName()
    {
        if (!File.Exists(Python)) return null;
        try
        {
            return $"SciPy {Child.Run(Child.Of(Python, "-c", "import scipy, numpy; print(scipy.__version__)")).Output.Trim()} pocketfft, 1 thread";
        }
        catch (InvalidOperationException)
        {
            return null;
        }
    }
}
