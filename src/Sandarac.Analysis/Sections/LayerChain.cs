namespace Sandarac.Analysis.Sections;

/// <summary>
/// Layers as the states of a left-to-right hidden Markov model: from the top of each profile downward they follow one another in one order, each as long as it likes or
/// not there at all. Segmental k-means (Juang and Rabiner, IEEE Trans. Acoustics, Speech and Signal Processing 38 (1990) 1639): the best path given what layers look
/// like, then what they look like given the path.
/// </summary>
internal static class LayerChain
{
    /// <summary>A chain fitted to the profiles.</summary>
    /// <param name="Edges">First row of each layer in every profile, and the row after the last.</param>
    /// <param name="Models">The layers' looks.</param>
    /// <param name="Cost">Negative log-likelihood.</param>
    public sealed record Fitted(int[][] Edges, LayerModel[] Models, double Cost);

    /// <summary>Alternates until nothing moves, at most <paramref name="rounds"/> times; 0 only says what the layers look like. Layers left with too few rows to be described are dropped; null when none remains, or when one would be dropped that is pinned.</summary>
    /// <param name="profiles">The profiles.</param>
    /// <param name="edges">Where to begin; first and last edge stay.</param>
    /// <param name="rounds">Most rounds.</param>
    /// <param name="pins">By edge, rows through which it must pass in some profiles; null for none.</param>
    public static Fitted? Fit(Profiles profiles, int[][] edges, int rounds, Dictionary<int, (int Profile, int Row)[]>? pins = null)
    {
        LayerModel[] models = [];
        var (cost, wanted) = (0.0, edges.Length);
        for (var round = 0; round < rounds; round++)
        {
            if (Described(profiles, edges) is not { } kept || (pins is not null && kept.Edges.Length != edges.Length)) return null;
            models = kept.Models;
            (var next, cost) = Path(profiles, models, edges[0], edges[^1], pins);
            var same = next.Length == edges.Length && next.Zip(edges).All(e => e.First.AsSpan().SequenceEqual(e.Second));
            edges = next;
            if (same) break;
        }
        return Described(profiles, edges) is { } last && (pins is null || last.Edges.Length == wanted) ? new Fitted(last.Edges, last.Models, cost) : null;
    }

    /// <summary>The same from what the layers look like instead of where they are.</summary>
    public static Fitted? Fit(Profiles profiles, LayerModel[] models, int[] top, int[] bottom, int rounds) => Fit(profiles, Path(profiles, models, top, bottom, null).Edges, rounds);

    /// <summary>The layers that have enough rows, with what they look like; a dropped one's rows go to the layer above it.</summary>
    private static (int[][] Edges, LayerModel[] Models)? Described(Profiles profiles, int[][] edges)
    {
        var (starts, models, fitted) = (new List<int[]>(), new List<LayerModel>(), new LayerModel?[edges.Length - 1]);
        Parallel.For(0, fitted.Length, profiles.Workers, k => fitted[k] = LayerModel.Fit(profiles, edges[k], edges[k + 1]));
        for (var k = 0; k < fitted.Length; k++)
        {
            if (fitted[k] is not { } model) continue;
            starts.Add(models.Count == 0 ? edges[0] : edges[k]);
            models.Add(model);
        }
        return models.Count == 0 ? null : ([.. starts, edges[^1]], [.. models]);
    }

    /// <summary>The cost of a layer's rows taken as one.</summary>
    public static double Cost(Profiles profiles, LayerModel model, int[] from, int[] to)
    {
        var costs = new double[profiles.Count];
        Parallel.For(0, profiles.Count, profiles.Workers, p =>
        {
            for (var r = from[p]; r < to[p]; r++)
                if (profiles.Known[p * profiles.Rows + r]) costs[p] += Math.Min(profiles.Anything, model.Cost(profiles.Values[p * profiles.Rows + r]));
        });
        return costs.Sum();
    }

    private static (int[][] Edges, double Cost) Path(Profiles profiles, LayerModel[] models, int[] top, int[] bottom, Dictionary<int, (int Profile, int Row)[]>? pins)
    {
        var edges = Enumerable.Range(0, models.Length + 1).Select(_ => new int[profiles.Count]).ToArray();
        var costs = new double[profiles.Count];
        Parallel.For(0, profiles.Count, profiles.Workers, p =>
        {
            var held = pins?.SelectMany(e => e.Value.Where(q => q.Profile == p).Select(q => (Edge: e.Key, q.Row))).ToArray() ?? [];
            costs[p] = One(profiles, models, p, top[p], bottom[p], edges, held);
        });
        return (edges, costs.Sum());
    }

    /// <summary>Viterbi's path down one profile.</summary>
    private static double One(Profiles profiles, LayerModel[] models, int p, int top, int bottom, int[][] edges, (int Edge, int Row)[] held)
    {
        var (k, rows) = (models.Length, bottom - top);
        var (best, next, costs) = (new double[k], new double[k], new float[k]);
        var came = new byte[Math.Max(0, rows) * k];
        for (var r = 0; r < rows; r++)
        {
            var at = p * profiles.Rows + top + r;
            if (profiles.Known[at])
                for (var s = 0; s < k; s++) costs[s] = Math.Min(profiles.Anything, models[s].Cost(profiles.Values[at]));
            else Array.Clear(costs);
            foreach (var (edge, row) in held)
                (top + r < row ? costs.AsSpan(edge) : costs.AsSpan(0, edge)).Fill(float.PositiveInfinity);
            var (least, from) = (double.PositiveInfinity, 0);
            for (var s = 0; s < k; s++)
            {
                if (best[s] <= least) (least, from) = (best[s], s);
                came[r * k + s] = (byte)from;
                next[s] = least + costs[s];
            }
            (best, next) = (next, best);
        }
        var state = Array.IndexOf(best, best.Min());
        var total = best[state];
        for (var s = state + 1; s <= k; s++) edges[s][p] = bottom;
        for (var r = rows - 1; r >= 0; r--)
        {
            int before = r == 0 ? 0 : came[r * k + state];
            for (var s = before + 1; s <= state; s++) edges[s][p] = top + r;
            state = before;
        }
        edges[0][p] = top;
        return total;
    }
}
