using MathNet.Numerics.Distributions;
using Sandarac.Benchmarks.Measuring;

namespace Sandarac.Benchmarks.Alignment;

/// <summary>
/// Images that do not show the same scene: how often they are called aligned all the same. The peer gives no verdict; counted are the pairs for
/// which it gives a homography, which whoever uses it must then judge.
/// </summary>
internal sealed class WrongPairsBenchmark : Benchmark
{
    private sealed record Result(WrongPair Pair, AlignAnswer Ours, bool? PeerAnswers);

    public override string Name => "align-wrong";

    public override string Summary => "images of different scenes, blank ones and noise: how many are called aligned";

    public override IEnumerable<Figure> Run(Settings settings)
    {
        var pairs = RegistrationData.Load();
        if (pairs.Count == 0)
        {
            yield return new Figure("wrong pairs called aligned", "pairs", null) { Note = SharedFolder.Missing };
            yield break;
        }
        var results = Choose(pairs, settings).Select(p => Try(p, settings.Folder)).ToList();
        foreach (var kind in results.GroupBy(r => r.Pair.Kind)) Say($"{kind.Key}: {Verdicts([.. kind])}");
        var aligned = Count("wrong pairs called aligned", results, AlignAnswer.Aligned);
        yield return aligned with
        {
            Note = aligned.Note + string.Concat(results.Where(r => r.Ours.Verdict == AlignAnswer.Aligned).Select(r => "; " + r.Pair.Name)),
            Peer = OpenCvPeer.Version is null ? null : results.Count(r => r.PeerAnswers == true),
            PeerName = OpenCvPeer.Version is null ? OpenCvPeer.Name : OpenCvPeer.Name + " sift gives a homography, unjudged",
        };
        yield return Count("wrong pairs called uncertain", results, AlignAnswer.Uncertain);
        PairTable.Write(settings, "align-wrong.csv", ["pair", "kind", "verdict", "reason", "peer_answers"],
            results.Select(r => new[] { r.Pair.Name, r.Pair.Kind, r.Ours.Verdict, r.Ours.Reason ?? "", $"{r.PeerAnswers}" }));
    }

    private static IEnumerable<WrongPair> Choose(IReadOnlyList<LandmarkedPair> pairs, Settings settings)
    {
        var swapped = WrongPair.Swapped(pairs);
        return (settings.Quick ? swapped.Take(4) : swapped).Concat(WrongPair.Empty([.. pairs.Take(settings.Quick ? 1 : int.MaxValue)], settings.Folder));
    }

    private static Result Try(WrongPair pair, string folder)
    {
        var ours = AlignRun.Of(folder, pair.Fixed, pair.Moving, [new(1, 1)]);
        var peer = OpenCvPeer.Version is null ? null : OpenCvPeer.Pair(folder, pair.Fixed, pair.Moving, [new(1, 1)], "sift")[0];
        return new Result(pair, ours.Answer, peer is null ? null : peer.Points is not null);
    }

    private static string Verdicts(IReadOnlyList<Result> results) =>
        string.Join(", ", results.CountBy(r => r.Ours.Verdict).OrderBy(c => c.Key, StringComparer.Ordinal).Select(c => $"{c.Value} {c.Key}"));

    private static Figure Count(string what, IReadOnlyList<Result> results, string verdict)
    {
        var found = results.Count(r => r.Ours.Verdict == verdict);
        return new Figure(what, "pairs", found)
        {
            Note = $"of {results.Count}: {100.0 * found / results.Count:0.0} %, "
                + $"at most {100 * AtMost(found, results.Count):0.0} % with 95 % confidence",
        };
    }

    /// <summary>Clopper and Pearson's upper bound of a share (Biometrika 26 (1934) 404), one-sided, 95 %.</summary>
    private static double AtMost(int found, int of) => found == of ? 1 : Beta.InvCDF(found + 1, of - found, 0.95);
}
