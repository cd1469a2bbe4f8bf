namespace Sandarac.Analysis.Teaching;

/// <summary>
/// Extremely randomised trees (Geurts, Ernst and Wehenkel, Machine Learning 63 (2006) 3): at each node a few features are drawn and each is cut at a
/// random place between its least and greatest value there; the cut that mixes the classes least (Gini) stays. Every tree sees all samples.
/// </summary>
/// <remarks>ML.NET's trees were tried: a forest of as many trees took minutes where this takes a fraction of a second, on 3000 samples of 130 features.</remarks>
internal sealed class TreeGrowing
{
    private const int MostDepth = 16;
    private const int FewestInLeaf = 3;

    private readonly Samples _samples;
    private readonly double[] _weights;
    private readonly int _classes;
    private readonly Random _random;
    private readonly int[] _order;
    private readonly int[] _features;
    private readonly List<TreeNode> _nodes = [];
    private readonly List<float> _shares = [];
    private int _depth;

    private TreeGrowing(Samples samples, int[] chosen, double[] weights, int classes, int seed)
    {
        (_samples, _classes, _random) = (samples, classes, new Random(seed));
        _order = (int[])chosen.Clone();
        _weights = new double[samples.Count];
        for (var i = 0; i < chosen.Length; i++) _weights[chosen[i]] = weights[i];
        _features = [.. Enumerable.Range(0, samples.Features.Length)];
    }

    /// <summary>Grows a forest; each tree has a seed of its own, so that the number of threads changes nothing.</summary>
    /// <param name="samples">The samples.</param>
    /// <param name="chosen">Those to learn from.</param>
    /// <param name="weights">Their weights.</param>
    /// <param name="classes">Number of classes.</param>
    /// <param name="trees">Number of trees.</param>
    /// <param name="threads">How many at once, and whether still.</param>
    public static Forest Grow(Samples samples, int[] chosen, double[] weights, int classes, int trees, ParallelOptions threads)
    {
        var grown = new Tree[trees];
        Parallel.For(0, trees, threads, t => grown[t] = new TreeGrowing(samples, chosen, weights, classes, t).Grow());
        return new Forest(grown, classes);
    }

    private Tree Grow()
    {
        AddNodes(1);
        var open = new Stack<(int Node, int From, int To, int Depth)>([(0, 0, _order.Length, 0)]);
        while (open.TryPop(out var n))
        {
            var shares = SharesOf(n.From, n.To);
            for (var k = 0; k < _classes; k++) _shares[n.Node * _classes + k] = (float)shares[k];
            if (n.Depth == MostDepth || shares.Max() > 1 - 1e-9 || Best(n.From, n.To, shares) is not { } cut)
            {
                _nodes[n.Node] = new TreeNode(0, float.NaN, n.Node);
                continue;
            }
            var middle = Divide(n.From, n.To, cut.Feature, cut.Cut);
            var next = AddNodes(2);
            _nodes[n.Node] = new TreeNode(cut.Feature, cut.Cut, next);
            _depth = Math.Max(_depth, n.Depth + 1);
            open.Push((next, n.From, middle, n.Depth + 1));
            open.Push((next + 1, middle, n.To, n.Depth + 1));
        }
        return new Tree([.. _nodes], [.. _shares], _depth);
    }

    private int AddNodes(int count)
    {
        var first = _nodes.Count;
        for (var i = 0; i < count; i++) _nodes.Add(default);
        for (var i = 0; i < count * _classes; i++) _shares.Add(0);
        return first;
    }

    private double[] SharesOf(int from, int to)
    {
        var (sums, all) = (new double[_classes], 0.0);
        for (var i = from; i < to; i++) (sums[_samples.Class[_order[i]]], all) = (sums[_samples.Class[_order[i]]] + _weights[_order[i]], all + _weights[_order[i]]);
        for (var k = 0; k < _classes; k++) sums[k] /= all;
        return sums;
    }

    /// <summary>The best of the random cuts of the square root of the number of features, features that do not vary not counted; null when there is none.</summary>
    private (int Feature, float Cut)? Best(int from, int to, double[] shares)
    {
        if (to - from < 2 * FewestInLeaf) return null;
        var (wanted, best, found) = ((int)Math.Sqrt(_features.Length), double.NegativeInfinity, ((int, float)?)null);
        for (var left = _features.Length; left > 0 && wanted > 0; left--)
        {
            var k = _random.Next(left);
            (_features[k], _features[left - 1]) = (_features[left - 1], _features[k]);
            var feature = _features[left - 1];
            if (RandomCut(_samples.Features[feature], from, to) is not { } cut) continue;
            wanted--;
            var purity = Purity(_samples.Features[feature], cut, from, to, shares);
            if (purity > best) (best, found) = (purity, (feature, cut));
        }
        return found;
    }

    private float? RandomCut(float[] values, int from, int to)
    {
        var (least, greatest) = (float.PositiveInfinity, float.NegativeInfinity);
        for (var i = from; i < to; i++)
        {
            var value = values[_order[i]];
            (least, greatest) = (Math.Min(least, value), Math.Max(greatest, value));
        }
        if (!(greatest > least)) return null;
        var cut = (float)(least + _random.NextDouble() * ((double)greatest - least));
        return cut < greatest ? cut : least;
    }

    /// <summary>Weighted sum of the squares of both sides' shares: greatest where Gini's impurity is least. Too small a side is worth nothing.</summary>
    private double Purity(float[] values, float cut, int from, int to, double[] shares)
    {
        Span<double> above = stackalloc double[_classes];
        var (aboveAll, all, count) = (0.0, 0.0, 0);
        for (var i = from; i < to; i++)
        {
            var (sample, weight) = (_order[i], _weights[_order[i]]);
            all += weight;
            if (!(values[sample] > cut)) continue;
            above[_samples.Class[sample]] += weight;
            aboveAll += weight;
            count++;
        }
        if (count < FewestInLeaf || to - from - count < FewestInLeaf) return double.NegativeInfinity;
        var purity = 0.0;
        for (var k = 0; k < _classes; k++)
        {
            var below = shares[k] * all - above[k];
            purity += above[k] * above[k] / aboveAll + below * below / (all - aboveAll);
        }
        return purity;
    }

    private int Divide(int from, int to, int feature, float cut)
    {
        var values = _samples.Features[feature];
        while (from < to)
        {
            if (!(values[_order[from]] > cut))
            {
                from++;
                continue;
            }
            to--;
            (_order[from], _order[to]) = (_order[to], _order[from]);
        }
        return from;
    }
}
