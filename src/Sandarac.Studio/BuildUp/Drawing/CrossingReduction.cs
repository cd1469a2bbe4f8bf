namespace Sandarac.Studio.BuildUp.Drawing;

/// <summary>Orders each layer so that few steps between neighbouring layers cross.</summary>
internal sealed class CrossingReduction
{
    /// <summary>Sweeps up and down; after so many without gain there is none to come, on graphs of some hundred boxes.</summary>
    private const int Sweeps = 24;

    /// <summary>Rounds of exchanging neighbours after each sweep: the next sweep goes on where they end.</summary>
    private const int Exchanges = 8;

    private readonly int[][] _lowers;
    private readonly int[][] _uppers;
    private readonly int[] _at;

    private CrossingReduction(int count, IReadOnlyList<(int Upper, int Lower)> steps)
    {
        var (lowers, uppers) = (steps.ToLookup(s => s.Upper, s => s.Lower), steps.ToLookup(s => s.Lower, s => s.Upper));
        (_lowers, _uppers, _at) = ([.. Enumerable.Range(0, count).Select(i => lowers[i].ToArray())], [.. Enumerable.Range(0, count).Select(i => uppers[i].ToArray())], new int[count]);
    }

    /// <summary>Rows from the bottom, each from left to right.</summary>
    /// <param name="levels">The layer of each box.</param>
    /// <param name="steps">Upper and lower box of each step; their layers are neighbours.</param>
    /// <param name="crossings">How many crossings are left.</param>
    public static int[][] Of(IReadOnlyList<int> levels, IReadOnlyList<(int Upper, int Lower)> steps, out int crossings)
    {
        int[][] rows = [.. Enumerable.Range(0, levels.Count).GroupBy(i => levels[i]).OrderBy(g => g.Key).Select(g => g.ToArray())];
        return new CrossingReduction(levels.Count, steps).Reduced(rows, out crossings);
    }

    private int[][] Reduced(int[][] rows, out int crossings)
    {
        int[][] best = [.. rows.Select(r => r.ToArray())];
        crossings = Count(rows);
        for (var sweep = 0; sweep < Sweeps && crossings > 0; sweep++)
        {
            rows = sweep % 2 == 0 ? Sorted(rows, _lowers) : [.. Sorted([.. rows.Reverse()], _uppers).Reverse()];
            Exchange(rows);
            if (Count(rows) is var now && now >= crossings) continue;
            (best, crossings) = ([.. rows.Select(r => r.ToArray())], now);
        }
        return best;
    }

    /// <summary>Crossings between neighbouring rows.</summary>
    private int Count(int[][] rows)
    {
        foreach (var row in rows) Number(row);
        return rows.Sum(row => Inversions(row.SelectMany(i => _lowers[i].Select(l => _at[l]).Order())));
    }

    /// <summary>Each row by the mean place of what its boxes lead to in the row before; a box that leads nowhere stays where it is.</summary>
    private int[][] Sorted(int[][] rows, int[][] ends)
    {
        foreach (var row in rows) Number(row);
        List<int[]> sorted = [rows[0]];
        foreach (var row in rows.Skip(1))
        {
            sorted.Add([.. row.OrderBy(i => ends[i].Length == 0 ? _at[i] : ends[i].Average(l => _at[l]))]);
            Number(sorted[^1]);
        }
        return [.. sorted];
    }

    /// <summary>Exchanges neighbours where that leaves fewer crossings.</summary>
    private void Exchange(int[][] rows)
    {
        var gained = true;
        for (var round = 0; round < Exchanges && gained; round++)
        {
            gained = false;
            foreach (var row in rows)
                for (var k = 0; k + 1 < row.Length; k++)
                {
                    var (a, b) = (row[k], row[k + 1]);
                    if (Crossed(_lowers[a], _lowers[b]) + Crossed(_uppers[a], _uppers[b]) <= Crossed(_lowers[b], _lowers[a]) + Crossed(_uppers[b], _uppers[a])) continue;
                    (row[k], row[k + 1], _at[a], _at[b], gained) = (b, a, k + 1, k, true);
                }
        }
    }

    /// <summary>How often the links of a box cross those of its right neighbour.</summary>
    private int Crossed(int[] left, int[] right)
    {
        var crossings = 0;
        foreach (var a in left)
            foreach (var b in right)
                if (_at[b] < _at[a]) crossings++;
        return crossings;
    }

    private void Number(int[] row)
    {
        for (var k = 0; k < row.Length; k++) _at[row[k]] = k;
    }

    private static int Inversions(IEnumerable<int> values)
    {
        List<int> sorted = [];
        var crossings = 0;
        foreach (var value in values)
        {
            var (low, high) = (0, sorted.Count);
            while (low < high) if (sorted[(low + high) / 2] <= value) low = (low + high) / 2 + 1; else high = (low + high) / 2;
            crossings += sorted.Count - low;
            sorted.Insert(low, value);
        }
        return crossings;
    }
}
