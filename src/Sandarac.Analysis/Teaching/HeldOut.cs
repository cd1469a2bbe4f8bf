namespace Sandarac.Analysis.Teaching;

/// <summary>What forests say of marks that they have not learnt from.</summary>
/// <param name="Samples">The samples.</param>
/// <param name="Block">The marks' blocks.</param>
/// <param name="Fold">Each sample's fold.</param>
/// <param name="Weights">Each sample's weight: classes count alike, blocks of a class too.</param>
/// <param name="Shares">Sample by sample, each class's share of the trees' answers.</param>
/// <param name="Importance">Each group's importance: how much less the right class gets, on average, when the group's values are taken from other marks.</param>
internal sealed record HeldOut(Samples Samples, MarkBlocks Block, int[] Fold, double[] Weights, double[][] Shares, double[] Importance)
{
    private const int MostFolds = 10;

    /// <summary>Learns as often as there are folds, each time without one of them and the marks near it; it is then judged.</summary>
    /// <param name="samples">The samples; every class has at least two blocks.</param>
    /// <param name="block">The marks' blocks.</param>
    /// <param name="classes">Number of classes.</param>
    /// <param name="trees">Trees of a forest.</param>
    /// <param name="groups">Groups of features whose importance is wanted.</param>
    /// <param name="threads">How many at once, and whether still.</param>
    public static HeldOut Of(Samples samples, MarkBlocks block, int classes, int trees, IReadOnlyList<int[]> groups, ParallelOptions threads)
    {
        var all = Enumerable.Range(0, samples.Count).ToArray();
        var folds = Math.Min(MostFolds, all.Select(i => block[samples.Mark[i]]).Distinct().Count());
        var dealt = block.Folds(samples, folds);
        int[] fold = [.. all.Select(i => dealt[block[samples.Mark[i]]])];
        var (weights, shares, losses) = (samples.Weights(block, all), new double[samples.Count][], new double[groups.Count]);
        for (var f = 0; f < folds; f++)
        {
            int[] judged = [.. all.Where(i => fold[i] == f)];
            var near = block.Buffer(judged.Select(i => samples.Mark[i]).Distinct());
            int[] learnt = [.. all.Where(i => !near.Contains(samples.Mark[i]))];
            var forest = TreeGrowing.Grow(samples, learnt, samples.Weights(block, learnt), classes, trees, threads);
            Judge(forest, samples, judged, threads, (i, s) => shares[i] = s);
            var lost = new double[groups.Count];
            Parallel.For(0, groups.Count, threads, g => lost[g] = Lost(forest, samples, judged, groups[g], weights, shares, f));
            for (var g = 0; g < lost.Length; g++) losses[g] += lost[g];
        }
        return new HeldOut(samples, block, fold, weights, shares, [.. losses.Select(l => l / samples.Count)]);
    }

    private static void Judge(Forest forest, Samples samples, int[] judged, ParallelOptions threads, Action<int, double[]> take) =>
        Parallel.For(0, (judged.Length + Forest.Run - 1) / Forest.Run, threads, run =>
        {
            var (features, shares) = (new float[samples.Features.Length * Forest.Run], new double[forest.Classes * Forest.Run]);
            var chosen = judged.AsSpan(run * Forest.Run, Math.Min(Forest.Run, judged.Length - run * Forest.Run));
            samples.Fill(chosen, features);
            forest.Judge(features, shares);
            for (var i = 0; i < chosen.Length; i++) take(chosen[i], Column(shares, i, forest.Classes));
        });

    /// <summary>Permutation importance (Breiman, Machine Learning 45 (2001) 5), on marks that were held out: the group's values are those of marks drawn at random.</summary>
    private static double Lost(Forest forest, Samples samples, int[] judged, int[] group, double[] weights, double[][] shares, int seed)
    {
        var (dice, lost) = (new Random(seed), 0.0);
        var (features, changed) = (new float[samples.Features.Length * Forest.Run], new double[forest.Classes * Forest.Run]);
        for (var from = 0; from < judged.Length; from += Forest.Run)
        {
            var chosen = judged.AsSpan(from, Math.Min(Forest.Run, judged.Length - from));
            samples.Fill(chosen, features);
            for (var i = 0; i < chosen.Length; i++)
            {
                var other = dice.Next(samples.Count);
                foreach (var f in group) features[f * Forest.Run + i] = samples.Features[f][other];
            }
            forest.Judge(features, changed);
            for (var i = 0; i < chosen.Length; i++)
            {
                var right = samples.Class[chosen[i]];
                lost += weights[chosen[i]] * (shares[chosen[i]][right] - changed[right * Forest.Run + i]);
            }
        }
        return lost;
    }

    private static double[] Column(double[] shares, int pixel, int classes)
    {
        var column = new double[classes];
        for (var k = 0; k < classes; k++) column[k] = shares[k * Forest.Run + pixel];
        return column;
    }
}
