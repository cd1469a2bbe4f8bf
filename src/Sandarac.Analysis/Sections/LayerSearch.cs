namespace Sandarac.Analysis.Sections;

/// <summary>
/// Finds the layers of the profiles: splits layers where it explains most (successive state splitting: Takami and Sagayama, ICASSP 1992, 573) while that explains enough, then takes out boundaries, the least worth first, as long as the description becomes shorter without them.
/// </summary>
internal static class LayerSearch
{
    /// <summary>States at which splitting ends, resin above and below included.</summary>
    public const int MostStates = 26;

    /// <summary>Rows below which a layer may be the mixture of its neighbours in blurred pixels.</summary>
    private const double MixedRows = 7;

    /// <summary>Mixtures lie this near to the line between their neighbours, as a squared share of its length: mixing is not straight in CIELAB.</summary>
    private const double Straight = 0.05;

    /// <summary>Profiles on either side that must agree with a boundary.</summary>
    private const int Neighbours = 3;

    /// <summary>Neighbouring rows are alike by at least this much in any paint: a split that explains less than so many times its boundary's course will not be worth its description.</summary>
    private const double LeastAlike = 8;

    private const int SplitRounds = 3, JoinRounds = 4;

    /// <summary>Layers that look this near, squared deviations, may be one that was found twice; so many such pairs are tried.</summary>
    private const double LikelyTwice = 1;

    private const int MostFolds = 8;

    /// <summary>Beginnings of a split, as shares of the layer in each profile: one boundary, and two with a thin layer between.</summary>
    private static readonly double[][] Beginnings =
    [
        [0.1], [0.3], [0.5], [0.7], [0.9],
        [0.05, 0.15], [0.25, 0.35], [0.45, 0.55], [0.65, 0.75], [0.85, 0.95],
    ];

    private sealed record Split(int[][] Edges, double Gain);

    /// <summary>The layers from top to bottom, resin included; null when the profiles say nothing.</summary>
    /// <param name="profiles">The profiles.</param>
    public static LayerChain.Fitted? Find(Profiles profiles) => Grown(profiles) is { } grown ? Pruned(profiles, grown) : null;

    /// <summary>More layers than there are.</summary>
    internal static LayerChain.Fitted? Grown(Profiles profiles)
    {
        var chain = LayerChain.Fit(profiles, [new int[profiles.Count], [.. Enumerable.Repeat(profiles.Rows, profiles.Count)]], 1);
        var tried = new Dictionary<(int, int), Split?>();
        while (chain is not null && chain.Models.Length < MostStates)
        {
            profiles.Workers.CancellationToken.ThrowIfCancellationRequested();
            if (Grow(profiles, chain, tried) is not { } grown) break;
            chain = grown;
        }
        return chain;
    }

    /// <summary>What lies between two edges as two or three layers, where those are worth their description; null where they are not.</summary>
    internal static LayerChain.Fitted? SplitOnce(Profiles profiles, int[] top, int[] bottom) =>
        LayerChain.Fit(profiles, [top, bottom], 0) is { } one && Grow(profiles, one, []) is { } split && Pruned(profiles, split) is { Models.Length: > 1 } parts ? parts : null;

    /// <summary>Those of them that are worth their description.</summary>
    internal static LayerChain.Fitted Pruned(Profiles profiles, LayerChain.Fitted grown)
    {
        var chain = LayerChain.Fit(profiles, grown.Edges, JoinRounds) ?? grown;
        while (chain.Models.Length > 1)
        {
            profiles.Workers.CancellationToken.ThrowIfCancellationRequested();
            if ((Shrink(profiles, chain) ?? Fold(profiles, chain)) is not { } shorter) break;
            chain = shorter;
        }
        return chain;
    }

    /// <summary>The chain with the split that gains most; the next best where that one would leave a layer without rows.</summary>
    private static LayerChain.Fitted? Grow(Profiles profiles, LayerChain.Fitted chain, Dictionary<(int, int), Split?> tried)
    {
        (int, int) Key(int k) => (Print(chain.Edges[k]), Print(chain.Edges[k + 1]));
        for (var k = 0; k < chain.Models.Length; k++)
            if (!tried.ContainsKey(Key(k))) tried[Key(k)] = BestSplit(profiles, chain, k);
        foreach (var k in Enumerable.Range(0, chain.Models.Length).Where(k => tried[Key(k)] is not null).OrderByDescending(k => tried[Key(k)]!.Gain))
        {
            int[][] edges = [.. chain.Edges[..(k + 1)], .. tried[Key(k)]!.Edges, .. chain.Edges[(k + 1)..]];
            // The others stay where they are, so that what was tried on them holds; all are fitted together in the end.
            if (LayerChain.Fit(profiles, edges, 0) is { } grown && grown.Models.Length > chain.Models.Length) return grown;
            tried[Key(k)] = null;
        }
        return null;
    }

    private static Split? BestSplit(Profiles profiles, LayerChain.Fitted chain, int k)
    {
        var (from, to) = (chain.Edges[k], chain.Edges[k + 1]);
        var whole = LayerChain.Cost(profiles, chain.Models[k], from, to);
        var splits = new Split?[Beginnings.Length];
        Parallel.For(0, splits.Length, profiles.Workers, i =>
        {
            var shares = Beginnings[i];
            int[][] begin = [from, .. shares.Select(s => from.Zip(to, (f, t) => f + (int)Math.Round(s * (t - f))).ToArray()), to];
            splits[i] = LayerChain.Fit(profiles, begin, SplitRounds) is { } fitted && fitted.Edges.Length == begin.Length ? new Split(fitted.Edges[1..^1], (whole - fitted.Cost - LeastAlike * fitted.Edges[1..^1].Sum(e => Description.Course(e, from, to))) / shares.Length) : null;
        });
        return splits.OfType<Split>().Where(s => s.Gain > 0).MaxBy(s => s.Gain);
    }

    /// <summary>Takes out boundaries that are not worth their description, the least worth first and none beside another; their course as it was found is counted in full. Null when all are
    /// worth it.</summary>
    internal static LayerChain.Fitted? Shrink(Profiles profiles, LayerChain.Fitted found)
    {
        var chain = Smoothed(profiles, found);
        var worth = new double[chain.Edges.Length];
        Parallel.For(1, chain.Models.Length, profiles.Workers, e => worth[e] = Worth(profiles, chain, e) - Description.Course(found.Edges[e], found.Edges[e - 1], found.Edges[e + 1]));
        var taken = new HashSet<int>();
        foreach (var e in Enumerable.Range(1, chain.Models.Length - 1).Where(e => worth[e] <= 0).OrderBy(e => worth[e]))
            if (!taken.Contains(e - 1) && !taken.Contains(e + 1)) taken.Add(e);
        return taken.Count == 0 ? null : LayerChain.Fit(profiles, [.. found.Edges.Where((_, e) => !taken.Contains(e))], JoinRounds);
    }

    /// <summary>
    /// The chain with a sequence of layers taken once instead of twice. Layers found one after the other may hold the left part of the section and, alike again, its right
    /// part; no single boundary less shortens that. Two layers that look alike are made one, without what lies between them, as long as the whole description becomes shorter. Null when it does not.
    /// </summary>
    private static LayerChain.Fitted? Fold(Profiles profiles, LayerChain.Fitted chain)
    {
        var pairs = from i in Enumerable.Range(0, chain.Models.Length)
                    from j in Enumerable.Range(i + 2, Math.Max(0, chain.Models.Length - i - 2))
                    let away = chain.Models[i].Away(chain.Models[j])
                    where away < LikelyTwice
                    orderby away
                    select (i, j);
        foreach (var (i, j) in pairs.Take(MostFolds))
            foreach (var first in new[] { i, i + 1 })
            {
                LayerModel[] models = [.. chain.Models[..first], .. chain.Models[(first + j - i)..]];
                if (LayerChain.Fit(profiles, models, chain.Edges[0], chain.Edges[^1], JoinRounds) is { } folded && IsShorter(profiles, folded, chain)) return folded;
            }
        return null;
    }

    /// <summary>Whether one whole chain's description is shorter than another's: likelihood in independent rows, the layers' looks, the boundaries' courses.</summary>
    private static bool IsShorter(Profiles profiles, LayerChain.Fitted chain, LayerChain.Fitted than)
    {
        var (rows, along) = Description.Alike(profiles, than, 0, than.Models.Length);
        var independent = profiles.Known.Count(k => k) / (rows * along);
        double Length(LayerChain.Fitted c) => c.Models.Select((m, k) => LayerChain.Cost(profiles, m, c.Edges[k], c.Edges[k + 1])).Sum() / (rows * along)
            + c.Models.Length * LayerModel.Parameters(profiles.Channels) / 2.0 * Math.Log(Math.Max(2, independent))
            + Enumerable.Range(1, c.Models.Length - 1).Sum(e => Description.Course(c.Edges[e], c.Edges[e - 1], c.Edges[e + 1]));
        return Length(chain) < Length(than);
    }

    /// <summary>The chain with each edge at the median of its neighbours': what one profile by itself made of its grains is no boundary. The edges keep their order.</summary>
    internal static LayerChain.Fitted Smoothed(Profiles profiles, LayerChain.Fitted chain)
    {
        int[][] edges = [.. chain.Edges.Select(e => e.Select((_, p) => Middle(e, p, Neighbours)).ToArray())];
        var models = Enumerable.Range(0, edges.Length - 1).Select(k => LayerModel.Fit(profiles, edges[k], edges[k + 1]) ?? chain.Models[k]).ToArray();
        return new LayerChain.Fitted(edges, models, 0);
    }

    /// <summary>Median of an edge over so many profiles on either side.</summary>
    internal static int Middle(int[] edge, int p, int reach)
    {
        var sorted = edge[Math.Max(0, p - reach)..Math.Min(edge.Length, p + reach + 1)];
        Array.Sort(sorted);
        return sorted[sorted.Length / 2];
    }

    /// <summary>Nats by which the description grows when the layers on both sides of an edge are taken as one, the edge's course not counted.</summary>
    internal static double Worth(Profiles profiles, LayerChain.Fitted chain, int edge)
    {
        var (above, here, below) = (chain.Edges[edge - 1], chain.Edges[edge], chain.Edges[edge + 1]);
        if (LayerModel.Fit(profiles, above, below) is not { } one) return double.NegativeInfinity;
        if (IsMixture(chain, edge - 1) || IsMixture(chain, edge)) return double.NegativeInfinity;
        var apart = LayerChain.Cost(profiles, chain.Models[edge - 1], above, here) + LayerChain.Cost(profiles, chain.Models[edge], here, below);
        var (rows, along) = Description.Alike(profiles, chain, edge - 1, edge + 1);
        var independent = above.Zip(below, (a, b) => (double)(b - a)).Sum() / (rows * along);
        return (LayerChain.Cost(profiles, one, above, below) - apart) / (rows * along)
            - LayerModel.Parameters(profiles.Channels) / 2 * Math.Log(Math.Max(2, independent));
    }

    /// <summary>Whether a layer is so thin, and so much between its neighbours in all channels, that it is their blurred border.</summary>
    private static bool IsMixture(LayerChain.Fitted chain, int k)
    {
        if (k == 0 || k == chain.Models.Length - 1) return false;
        double[] thickness = [.. chain.Edges[k + 1].Zip(chain.Edges[k], (b, a) => (double)(b - a)).Where(t => t > 0)];
        if (thickness.Length == 0 || Numbers.Robust.Median(thickness) > MixedRows) return false;
        var (a, m, b) = (chain.Models[k - 1].Mean, chain.Models[k].Mean, chain.Models[k + 1].Mean);
        double along = 0, length = 0, total = 0;
        for (var c = 0; c < m.Length; c++) (along, length) = (along + (m[c] - a[c]) * (b[c] - a[c]), length + (b[c] - a[c]) * (b[c] - a[c]));
        var share = length > 0 ? along / length : 0;
        for (var c = 0; c < m.Length; c++) total += Math.Pow(m[c] - a[c] - share * (b[c] - a[c]), 2);
        return share is > 0 and < 1 && total < Straight * length;
    }

    private static int Print(int[] edge) => edge.Aggregate(17, (h, e) => unchecked(h * 31 + e));
}
