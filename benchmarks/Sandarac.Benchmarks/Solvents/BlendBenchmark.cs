using Sandarac.Benchmarks.Measuring;
using Sandarac.Materials.Solvents;

namespace Sandarac.Benchmarks.Solvents;

/// <summary>
/// The nearest blends of at most three of the table's solvents; beside SciPy, which solves each combination by non-negative least squares, and beside a plain loop over shares in steps of 5 %. The peers know nothing of what
/// mixes, so all are given the solvents that mix with one another.
/// </summary>
internal sealed class BlendBenchmark : Benchmark
{
    /// <summary>What a person waits for without noticing, ms: the search's own aim.</summary>
    private const double AimMs = 50;

    private static readonly HansenTarget Hansen = new(new(18.6, 10.5, 7.5));

    public override string Name => "blend";

    public override string Summary => "nearest blends of at most three solvents of the table, beside SciPy on every combination and beside a loop over shares in steps of 5 %";

    public override IEnumerable<Figure> Run(Settings settings)
    {
        foreach (BlendTarget target in (BlendTarget[])[Hansen, new TeasTarget(new(60, 20, 20))])
            yield return new Figure($"the whole table, {BlendSearch.Find(target, new()).Value!.Compared} combinations, {(target is HansenTarget ? "Hansen" : "Teas")}", "ms", Milliseconds(target, new(), settings)) { Limit = new Limit(AimMs, false) };
        var shelf = Mixing();
        var limits = new BlendLimits(Shelf: [.. shelf.Select(s => s.Name)]);
        Place[] places = [.. shelf.Select(s => Place.Of(s.Hansen!.Value) - Place.Of(Hansen.Parameters))];
        var (ours, nearest) = (Milliseconds(Hansen, limits, settings), BlendSearch.Find(Hansen, limits, 3000).Value!.Blends.Min(b => b.Distance));
        if (Peer(settings, places) is [var seconds, var best, ..])
            yield return new Figure($"{shelf.Count} that mix, Hansen", "ms", ours) { Peer = 1000 * Invariant.Number(seconds), PeerName = "SciPy nnls, each combination by itself", Note = $"nearest {nearest:0.0000} MPa^0.5, SciPy's {best}" };
        var found = 0.0;
        var loop = 1000 * Rounds.Seconds(() => found = Grid(places));
        yield return new Figure($"{shelf.Count} that mix, Hansen", "ms", ours) { Peer = loop, PeerName = "plain loop, steps of 5 %, C#, one thread", Note = $"nearest {nearest:0.0000} MPa^0.5, the loop's {found:0.0000}" };
    }

    /// <summary>Solvents that the search allows, each of which mixes with all that were taken before it.</summary>
    private static List<Solvent> Mixing()
    {
        List<Solvent> taken = [];
        var leftOut = BlendSearch.Find(Hansen, new()).Value!.LeftOut.Select(o => o.Solvent).ToHashSet();
        foreach (var solvent in SolventTable.All.Where(s => !leftOut.Contains(s)))
            if (taken.All(t => !Miscibility.PartInto(t, solvent))) taken.Add(solvent);
        return taken;
    }

    private static double Milliseconds(BlendTarget target, BlendLimits limits, Settings settings)
    {
        BlendSearch.Find(target, limits);
        return 1000 * Rounds.Median(Enumerable.Range(0, settings.Quick ? 3 : 15).Select(_ => Rounds.Seconds(() => BlendSearch.Find(target, limits))));
    }

    private static double Grid(Place[] v)
    {
        var best = double.PositiveInfinity;
        for (var i = 0; i < v.Length; i++)
            for (var j = i + 1; j < v.Length; j++)
                for (var k = j + 1; k < v.Length; k++)
                    for (var a = 5; a <= 90; a += 5)
                        for (var b = 5; a + b <= 95; b += 5)
                        {
                            var at = a / 100.0 * v[i] + b / 100.0 * v[j] + (100 - a - b) / 100.0 * v[k];
                            best = Math.Min(best, Place.Dot(at, at));
                        }
        return Math.Sqrt(best);
    }

    private static string[] Peer(Settings settings, Place[] places)
    {
        var path = Path.Combine(settings.Folder, "places.txt");
        File.WriteAllLines(path, places.Select(p => $"{p.X:R} {p.Y:R} {p.Z:R}"));
        return PythonPeer.Words("scipy_blend.py", path, "0.05");
    }
}
