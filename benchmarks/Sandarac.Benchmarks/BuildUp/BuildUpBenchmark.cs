using System.Diagnostics;
using Sandarac.Benchmarks.Measuring;
using Sandarac.Studio.BuildUp;
using Sandarac.Studio.BuildUp.Drawing;

namespace Sandarac.Benchmarks.BuildUp;

/// <summary>Relations between stages merged into one order, contradictions among them found; beside networkx, which is given the same relations as a graph.</summary>
internal sealed class BuildUpBenchmark : Benchmark
{
    private const string Python = "/usr/bin/python3";
    private const int Stages = 1000, Relations = 5000, Wrong = 20;

    private static readonly string Script = Path.Combine(AppContext.BaseDirectory, "peers", "networkx_order.py");

    public override string Name => "build-up";

    public override string Summary => $"{Relations} relations between {Stages} stages with {Wrong} contradictions planted: order, contradictions with shortest chains, beside networkx";

    public override IEnumerable<Figure> Run(Settings settings)
    {
        BuildUpStage[] stages = [.. Enumerable.Range(0, Stages).Select(i => new BuildUpStage(Guid.CreateVersion7(), $"{i}", StageKind.Paint))];
        var apart = Links(new Random(1), parts: Wrong);
        var entangled = Links(new Random(2), parts: 1);
        Merge(stages, apart);
        foreach (var (what, links) in new[] { ("one in each of 20 parts", apart), ("all in one part, so that most stages stand in one knot", entangled) })
        {
            var order = Merge(stages, links);
            var seconds = Rounds.Median(Enumerable.Range(0, 5).Select(_ => Seconds(() => Merge(stages, links))));
            var peer = Peer(settings, links);
            yield return new Figure($"merging and checking, {what}", "s", seconds)
            {
                Peer = peer, PeerName = peer is null ? "peer not present: apt-get install python3-networkx" : "networkx: components, shortest ways back, transitive reduction",
                Limit = new Limit(1, false), Note = $"{Found(order, links)} of {Wrong} planted relations stand in a listed chain; {order.Contradictions.Count} contradictions listed",
            };
        }
        foreach (var count in settings.Quick ? [60] : new[] { 60, 300 })
        {
            var drawn = Merge(stages[..count], Links(new Random(3), parts: 1, stages: count, relations: 2 * count, wrong: 1));
            BuildUpDrawing.Draw(drawn);
            yield return new Figure($"drawing {count} stages", "s", Seconds(() => BuildUpDrawing.Draw(drawn)));
        }
    }

    private static int Found(BuildUpOrder order, (int Upper, int Lower)[] links)
    {
        var listed = order.Contradictions.SelectMany(c => c.Further.Prepend(c.Chain)).SelectMany(c => c).Select(r => r.Evidence).ToHashSet();
        return Enumerable.Range(0, links.Length).Count(i => links[i].Upper < links[i].Lower && listed.Contains($"{i}"));
    }

    /// <summary>Pairs of which the greater number lies over the smaller, but for the wrong ones.</summary>
    private static (int Upper, int Lower)[] Links(Random dice, int parts, int stages = Stages, int relations = Relations, int wrong = Wrong)
    {
        var size = stages / parts;
        return [.. Enumerable.Range(0, relations).Select(i =>
        {
            var first = i % parts * size;
            if (i < wrong) return (first + dice.Next(size / 5), first + size - 1 - dice.Next(size / 5));
            var (a, b) = (dice.Next(size), dice.Next(size - 1));
            if (b >= a) b++;
            return (first + Math.Max(a, b), first + Math.Min(a, b));
        })];
    }

    private static BuildUpOrder Merge(BuildUpStage[] stages, (int Upper, int Lower)[] links) =>
        BuildUpOrder.Of(stages, [.. links.Select((l, i) => new BuildUpRelation(Guid.CreateVersion7(), stages[l.Upper].Id, RelationKind.Over, stages[l.Lower].Id, $"{i}"))]);

    private static double Seconds(Action work)
    {
        var start = Stopwatch.GetTimestamp();
        work();
        return Stopwatch.GetElapsedTime(start).TotalSeconds;
    }

    private static double? Peer(Settings settings, (int Upper, int Lower)[] links)
    {
        if (!File.Exists(Python)) return null;
        var path = Path.Combine(settings.Folder, "links.txt");
        File.WriteAllLines(path, links.Select(l => $"{l.Upper} {l.Lower}"));
        try
        {
            return Invariant.Number(Child.Run(Child.Of(Python, [Script, path])).Output);
        }
        catch (InvalidOperationException)
        {
            return null;
        }
    }
}
