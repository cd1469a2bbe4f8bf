using Sandarac.Imaging;

namespace Sandarac.Studio.BuildUp;

/// <summary>Stages as a graph: a step leads from a stage to one that it lies over, or, both ways, to one that it is the same as.</summary>
internal sealed class EvidenceGraph
{
    private readonly List<(int To, int Relation)>[] _steps;
    private readonly int[] _cameBy;
    private readonly int[] _cameFrom;

    /// <exception cref="InputProblem">A relation names a stage that is not there ("unknown-stage").</exception>
    public EvidenceGraph(IReadOnlyList<BuildUpStage> stages, IReadOnlyList<BuildUpRelation> relations)
    {
        var index = stages.Select((s, i) => (s.Id, i)).ToDictionary(s => s.Id, s => s.i);
        int At(Guid id) => index.TryGetValue(id, out var i) ? i
            : throw new InputProblem("unknown-stage", id.ToString(), "A relation names a stage that is not there.", "The list of stages shows what there is.");
        _steps = [.. stages.Select(_ => new List<(int, int)>())];
        (_cameBy, _cameFrom) = (new int[stages.Count], new int[stages.Count]);
        Ends = [.. relations.Select(r => (At(r.Upper), At(r.Lower)))];
        for (var r = 0; r < relations.Count; r++)
        {
            var (upper, lower) = Ends[r];
            _steps[upper].Add((lower, r));
            if (!relations[r].Orders) _steps[lower].Add((upper, r));
        }
    }

    /// <summary>The stages of each relation: upper, lower.</summary>
    public IReadOnlyList<(int Upper, int Lower)> Ends { get; }

    /// <summary>Strongly connected components, numbered from the bottom up: a step between two leads to the smaller number.</summary>
    /// <remarks>R. Tarjan, Depth-first search and linear graph algorithms, SIAM J. Comput. 1 (1972) 146-160; without recursion, so that no chain is too long.</remarks>
    public int[] Components()
    {
        var n = _steps.Length;
        var (component, order, low, next) = (Filled(n, -1), Filled(n, -1), new int[n], new int[n]);
        var (open, path, counter, components) = (new Stack<int>(), new Stack<int>(), 0, 0);
        for (var root = 0; root < n; root++)
        {
            if (order[root] < 0) path.Push(root);
            while (path.TryPeek(out var v))
            {
                if (order[v] < 0)
                {
                    order[v] = low[v] = counter++;
                    open.Push(v);
                }
                if (next[v] < _steps[v].Count)
                {
                    var to = _steps[v][next[v]++].To;
                    if (order[to] < 0) path.Push(to);
                    else if (component[to] < 0) low[v] = Math.Min(low[v], order[to]);
                    continue;
                }
                path.Pop();
                if (path.TryPeek(out var parent)) low[parent] = Math.Min(low[parent], low[v]);
                if (low[v] != order[v]) continue;
                int member;
                do component[member = open.Pop()] = components; while (member != v);
                components++;
            }
        }
        return component;
    }

    /// <summary>From one stage the fewest relations to every other of its component; read them by <see cref="ChainTo"/>. Breadth first.</summary>
    public void Explore(int from, int[] component)
    {
        Array.Fill(_cameBy, -1);
        var queue = new Queue<int>([from]);
        while (queue.TryDequeue(out var v))
            foreach (var (to, relation) in _steps[v])
            {
                if (component[to] != component[from] || to == from || _cameBy[to] >= 0) continue;
                (_cameBy[to], _cameFrom[to]) = (relation, v);
                queue.Enqueue(to);
            }
    }

    /// <summary>The relations that lead to a stage from the one explored last, in their order.</summary>
    public List<int> ChainTo(int stage)
    {
        List<int> chain = [];
        for (var v = stage; _cameBy[v] >= 0; v = _cameFrom[v]) chain.Add(_cameBy[v]);
        chain.Reverse();
        return chain;
    }

    private static int[] Filled(int length, int value)
    {
        var array = new int[length];
        Array.Fill(array, value);
        return array;
    }
}
