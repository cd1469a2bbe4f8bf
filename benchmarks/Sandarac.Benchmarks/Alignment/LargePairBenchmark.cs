using MathNet.Numerics.Statistics;
using Sandarac.Benchmarks.Measuring;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Benchmarks.Alignment;

/// <summary>
/// A pair of 30 million pixels from file to file, and how true the result is: the specimen in visible light and infrared. Its photographs come
/// through two lenses with a distortion each, which a homography alone, the peer's, cannot follow.
/// </summary>
internal sealed class LargePairBenchmark : Benchmark
{
    /// <summary>One way through the pair.</summary>
    private sealed record Pass(ChildResult Process, IReadOnlyList<Stage> Stages, IReadOnlyList<Point2>? Points, string Said);

    public override string Name => "align-large";

    public override string Summary => "a 30 megapixel pair from file to file, and its accuracy against truth, beside OpenCV";

    public override IEnumerable<Figure> Run(Settings settings)
    {
        // 270 ppi make 6051 x 4949 pixels.
        var ppi = settings.Quick ? 60 : 270;
        Say($"drawing two lights at {ppi} ppi");
        var pair = LargePair.Draw(ppi, Path.Combine(settings.Folder, "specimen"));
        var (theirs, ours) = Rounds.Alternate(settings.Quick ? 1 : 3,
            () => OpenCvPeer.Version is null ? null : Peer(pair, settings.Folder), () => Ours(pair, settings.Folder));
        Say($"ours: {ours[0]!.Said}; {Stages(ours)}");
        if (OpenCvPeer.Version is not null) Say($"peer: {theirs[0]!.Said}; {Stages(theirs)}");
        yield return Time($"specimen at {ppi} ppi, infrared on visible, file to file", ours, theirs, settings.Quick);
        foreach (var figure in Accuracy($"specimen at {ppi} ppi, error of points", pair, ours[0]!, theirs[0], settings.Quick)) yield return figure;
    }

    private static Pass Ours(LargePair pair, string folder)
    {
        var result = Path.Combine(folder, "ours.tif");
        var run = AlignRun.Of(folder, pair.Visible, pair.Infrared, pair.OnInfrared, "--out", result);
        File.Delete(result);
        return new Pass(run.Process, run.Answer.Stages ?? [], run.Points, $"{run.Answer.Verdict}, {run.Answer.Reason}");
    }

    private static Pass Peer(LargePair pair, string folder)
    {
        var (points, result) = (Path.Combine(folder, "peer.csv"), Path.Combine(folder, "peer.tif"));
        PointsFile.Write(points, pair.OnInfrared);
        var (answer, process) = OpenCvPeer.Large(pair.Visible, pair.Infrared, points, result);
        File.Delete(result);
        return new Pass(process, answer.Stages, OpenCvPeer.Mapped(answer.Points), answer.How);
    }

    private static Figure Time(string what, IReadOnlyList<Pass?> ours, IReadOnlyList<Pass?> theirs, bool quick) =>
        new(what, "s", Rounds.Median(ours.Select(p => p!.Process.Seconds)))
        {
            Peer = OpenCvPeer.Version is null ? null : Rounds.Median(theirs.Select(p => p!.Process.Seconds)),
            PeerName = theirs[0] is { } peer ? $"{OpenCvPeer.Name}, {peer.Said}" : OpenCvPeer.Name,
            Limit = quick ? null : new Limit(12, false),
            Note = $"rounds {Each(ours)}, peer {Each(theirs)}; "
                + $"peak memory {ours.Max(p => p!.Process.PeakMegabytes):0} MB, peer {theirs.Max(p => p?.Process.PeakMegabytes):0} MB",
        };

    private static IEnumerable<Figure> Accuracy(string what, LargePair pair, Pass ours, Pass? theirs, bool quick)
    {
        var best = Homography.Fit(pair.OnInfrared, pair.OnVisible);
        IReadOnlyList<Point2> bestPoints = [.. pair.OnInfrared.Select(best.Apply)];
        foreach (var (share, limit) in ((int, double)[])[(50, 0.10), (95, 0.30)])
        {
            double Error(IReadOnlyList<Point2> points) =>
                Outcome.Distances(points, pair.OnVisible).QuantileCustom(share / 100.0, QuantileDefinition.R7);
            yield return new Figure($"{what}, {(share == 50 ? "median" : $"p{share}")}", "px", ours.Points is null ? null : Error(ours.Points))
            {
                Peer = theirs?.Points is null ? null : Error(theirs.Points),
                PeerName = theirs is null ? OpenCvPeer.Name : $"{OpenCvPeer.Name}, one homography",
                Limit = quick ? null : new Limit(limit, false),
                Note = $"{pair.OnVisible.Count} points of the face; the homography through the true points leaves {Error(bestPoints):0.00} px",
            };
        }
    }

    private static string Each(IEnumerable<Pass?> passes) => string.Join(" ", passes.Select(p => $"{p?.Process.Seconds:0.0}"));

    private static string Stages(IReadOnlyList<Pass?> passes) =>
        string.Join(", ", passes.SelectMany(p => p!.Stages).GroupBy(s => s.Name).Select(g => $"{g.Key} {Rounds.Median(g.Select(s => s.Seconds)):0.00} s"));
}
