using Sandarac.Analysis.Teaching;
using Sandarac.Benchmarks.Measuring;

namespace Sandarac.Benchmarks.Teaching;

/// <summary>Learning and judging beside scikit-learn: the same samples, pixels, number of trees and rules of growing, one thread on both sides, seconds of the processor.</summary>
internal sealed class TeachSpeedBenchmark : Benchmark
{
    private const int Classes = 4, Features = 117, SamplesOfClass = 750, Trees = 100;

    /// <summary>Classes lie this many standard deviations apart in a fifth of the features: trees as deep as those of strokes on the specimen.</summary>
    private const double Apart = 1.0;

    public override string Name => "teach-speed";

    public override string Summary => "forest of 100 trees on 117 features: learning and judging beside scikit-learn, one thread";

    public override IEnumerable<Figure> Run(Settings settings)
    {
        var dice = new Random(1);
        var (known, classes, unknown) = (Rows(Classes * SamplesOfClass, dice), Enumerable.Range(0, Classes * SamplesOfClass).Select(i => i % Classes).ToArray(), Rows(settings.Quick ? 20_000 : 200_000, dice));
        var samples = new Samples([.. Enumerable.Range(0, Features).Select(f => Enumerable.Range(0, classes.Length).Select(i => known[i * Features + f]).ToArray())], classes, classes);
        var peer = SklearnForest.Version is null ? null : SklearnForest.Judge(settings.Folder, known, classes, unknown, Features, Trees);
        var (one, weights) = (new ParallelOptions { MaxDegreeOfParallelism = 1 }, Enumerable.Repeat(1.0, classes.Length).ToArray());
        Forest Grow() => TreeGrowing.Grow(samples, [.. Enumerable.Range(0, classes.Length)], weights, Classes, Trees, one);
        Grow();
        var (learning, forest) = Timed(Grow);
        Judge(forest, unknown);
        var judging = Rounds.Median(Enumerable.Range(0, 3).Select(_ => Timed(() => Judge(forest, unknown)).Seconds));
        yield return new Figure($"learning from {classes.Length} samples", "s", learning) { Peer = peer?.Learning, PeerName = SklearnForest.Name };
        yield return new Figure($"judging {unknown.Length / Features} pixels", "s", judging)
        {
            Peer = peer?.Judging, PeerName = SklearnForest.Name, Limit = new Limit(1 / 3.0, true),
            Note = $"ours {forest.Nodes} nodes, mean depth {forest.MeanDepth:0.0}; peer {peer?.Nodes} nodes, {peer?.Depth:0.0}",
        };
    }

    private static float[] Rows(int count, Random dice)
    {
        var rows = new float[count * Features];
        for (var i = 0; i < count; i++)
            for (var f = 0; f < Features; f++)
                rows[i * Features + f] = (float)(Math.Sqrt(-2 * Math.Log(1 - dice.NextDouble())) * Math.Cos(2 * Math.PI * dice.NextDouble()) + (f % 5 == 0 ? Apart * (i % Classes * (f % 3 + 1) % Classes) : 0));
        return rows;
    }

    private static (double Seconds, T Result) Timed<T>(Func<T> work)
    {
        var start = Environment.CpuUsage.TotalTime;
        var result = work();
        return ((Environment.CpuUsage.TotalTime - start).TotalSeconds, result);
    }

    /// <summary>Rows in, probabilities out, as the peer does it: bringing the rows into the forest's order counts.</summary>
    private static double Judge(Forest forest, float[] rows)
    {
        var (features, shares, sum) = (new float[Features * Forest.Run], new double[Classes * Forest.Run], 0.0);
        for (var from = 0; from < rows.Length / Features; from += Forest.Run)
        {
            var count = Math.Min(Forest.Run, rows.Length / Features - from);
            for (var i = 0; i < count; i++)
                for (var f = 0; f < Features; f++) features[f * Forest.Run + i] = rows[(from + i) * Features + f];
            forest.Judge(features, shares);
            sum += shares[0];
        }
        return sum;
    }
}
