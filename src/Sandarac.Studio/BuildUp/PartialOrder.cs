using System.Collections;

namespace Sandarac.Studio.BuildUp;

/// <summary>A partial order of numbers in which what lies over another has the greater number; with everything that follows from it.</summary>
internal sealed class PartialOrder
{
    private readonly BitArray[] _below;
    private readonly HashSet<int>[] _direct;
    private readonly int[] _level;

    /// <param name="count">How many numbers.</param>
    /// <param name="over">Pairs of which the first lies over the second; equal ones are left out.</param>
    public PartialOrder(int count, IEnumerable<(int Upper, int Lower)> over)
    {
        _direct = [.. Enumerable.Range(0, count).Select(_ => new HashSet<int>())];
        foreach (var (upper, lower) in over.Where(o => o.Upper != o.Lower)) _direct[upper].Add(lower);
        (_below, _level) = (new BitArray[count], new int[count]);
        for (var i = 0; i < count; i++)
        {
            _below[i] = new BitArray(count);
            foreach (var lower in _direct[i]) _below[i].Or(_below[lower]);
            // What the others lie over need not be said again. A. Aho, M. Garey, J. Ullman, The transitive reduction of a directed graph, SIAM J. Comput. 1 (1972) 131-137.
            _direct[i].RemoveWhere(lower => _below[i][lower]);
            foreach (var lower in _direct[i]) _below[i][lower] = true;
            _level[i] = _direct[i].Select(lower => _level[lower] + 1).DefaultIfEmpty(0).Max();
        }
    }

    /// <summary>Whether one lies over another, directly or not.</summary>
    public bool IsOver(int upper, int lower) => _below[upper][lower];

    /// <summary>How many lie under one, each over the next, at most.</summary>
    public int Level(int i) => _level[i];

    /// <summary>Whether one lies over another with none between.</summary>
    public bool IsDirect(int upper, int lower) => _direct[upper].Contains(lower);
}
