using Sandarac.Benchmarks.Measuring;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Benchmarks.Alignment;

/// <summary>
/// Real pairs in different lights: how far marked points lie from where they should, beside OpenCV's ways. Ours is the command line; an answer
/// that it calls uncertain counts like any other, and how many there were is said. Landmarks are marked by hand: the homography through them
/// says how well they can be met at all.
/// </summary>
internal sealed class LandmarksBenchmark : Benchmark
{
    private const string Ours = "ours", Unaligned = "unaligned", Marked = "homography through the landmarks";

    /// <summary>Largest share of pairs that may fail at 5 px.</summary>
    private static readonly Dictionary<string, double> MayFail = new()
    {
        ["colour/near-infrared"] = 0, ["colour/thermal"] = 0.2, ["retina, angiography/colour"] = 0.1,
    };

    public override string Name => "align-landmarks";

    public override string Summary => "real pairs in different lights: marked points after alignment, beside OpenCV";

    public override IEnumerable<Figure> Run(Settings settings)
    {
        var pairs = RegistrationData.Load();
        if (pairs.Count == 0)
            yield return new Figure("real pairs failed at 5 px", "share", null) { Limit = new Limit(0, false), Note = SharedFolder.Missing };
        var all = new List<Outcome>();
        foreach (var family in pairs.GroupBy(p => p.Family))
        {
            var outcomes = family.Take(settings.Quick ? 2 : int.MaxValue).SelectMany(p => Align(p, settings.Folder)).ToList();
            all.AddRange(outcomes);
            var tallies = outcomes.GroupBy(o => o.Method).Select(g => new Tally(g.Key, [.. g])).ToList();
            foreach (var figure in Compare(family.Key, tallies, settings.Quick)) yield return figure;
        }
        if (all.Count > 0) yield return Misplaced([.. all.Where(o => o.Method == Ours)]);
        PairTable.Write(settings, "align-landmarks.csv", ["pair", "family", "method", "verdict", "median_error_px", "seconds"],
            all.Select(o => new[] { o.Pair.Name, o.Pair.Family, o.Method, o.Verdict, $"{o.Error:0.000}", $"{o.Seconds:0.000}" }));
    }

    private static IEnumerable<Outcome> Align(LandmarkedPair pair, string folder)
    {
        yield return Outcome.Of(pair, Unaligned, "", pair.OnMoving, 0);
        var marked = Homography.Fit(pair.OnMoving, pair.OnFixed);
        yield return Outcome.Of(pair, Marked, "", [.. pair.OnMoving.Select(marked.Apply)], 0);
        var ours = AlignRun.Of(folder, pair.Fixed, pair.Moving, pair.OnMoving);
        yield return Outcome.Of(pair, Ours, ours.Answer.Verdict, ours.Points, ours.Process.Seconds);
        if (OpenCvPeer.Version is null) yield break;
        foreach (var peer in OpenCvPeer.Pair(folder, pair.Fixed, pair.Moving, pair.OnMoving, OpenCvPeer.Methods))
            yield return Outcome.Of(pair, $"{OpenCvPeer.Name} {peer.Method}", "", OpenCvPeer.Mapped(peer.Points), peer.Seconds);
    }

    private static IEnumerable<Figure> Compare(string family, IReadOnlyList<Tally> tallies, bool quick)
    {
        var ours = tallies.Single(t => t.Method == Ours);
        Say($"{family}, {ours.Outcomes.Count} pairs");
        Say("  " + Tally.Header);
        foreach (var tally in tallies) Say("  " + tally);
        Tally[] peers = [.. tallies.Where(t => t.Method.StartsWith("OpenCV", StringComparison.Ordinal))];
        yield return Beside($"{family}: pairs failed at 5 px", "share", ours, peers, t => t.FailedAt(5)) with
        {
            Limit = !quick && MayFail.TryGetValue(family, out var share) ? new Limit(share, false) : null,
        };
        yield return Beside($"{family}: median of the pairs' median errors", "px", ours, peers, t => t.MedianError);
    }

    /// <summary>The strictest comparison: with whichever of the peer's ways is best here.</summary>
    private static Figure Beside(string what, string unit, Tally ours, Tally[] peers, Func<Tally, double> value)
    {
        var best = peers.MinBy(value);
        return new Figure(what, unit, value(ours))
        {
            Peer = best is null ? null : value(best),
            PeerName = best is null ? OpenCvPeer.Name : $"best of {peers.Length}: {best.Method}",
        };
    }

    /// <summary>The worst kind of answer: a wrong one that is not even called uncertain.</summary>
    private static Figure Misplaced(IReadOnlyList<Outcome> ours)
    {
        var wrong = ours.Where(o => o.Verdict == AlignAnswer.Aligned && !(o.Error < 10)).ToList();
        return new Figure("real pairs called aligned, yet 10 px off or more", "pairs", wrong.Count)
        {
            Note = $"of {ours.Count}" + string.Concat(wrong.Select(o => $"; {o.Pair.Name}: {o.Error:0.0} px")),
        };
    }
}
