namespace Sandarac.Studio.BuildUp.Drawing;

/// <summary>Orders each layer so that few steps between neighbouring layers cross.</summary>
internal static class CrossingReduction
{
    /// <summary>Sweeps up and down; after so many without gain there is none to come, on graphs of some hundred boxes.</summary>
    private const int Sweeps = 24;

    /// <summary>Rows from the bottom, each from left to right.</summary>
    /// <param name="levels">The layer of each box.</param>
    /// <param name="steps">Upper and lower box of each step; their layers are neighbours.</param>
    /// <param name="crossings">How many crossings are left.</param>
    public static int[][] Of(IReadOnlyList<int> levels, IReadOnlyList<(int Upper, int Lower)> steps, out int crossings)
    {
        var (lowers, uppers) = (steps.ToLookup(s => s.Upper, s => s.Lower), steps.ToLookup(s => s.Lower, s => s.Upper));
        int[][] rows = [.. Enumerable.Range(0, levels.Count).GroupBy(i => levels[i]).OrderBy(g => g.Key).Select(g => g.ToArray())];
        var best = rows;
        crossings = Count(rows, lowers);
        for (var sweep = 0; sweep < Sweeps && crossings > 0; sweep++)
        {
            rows = sweep % 2 == 0 ? Upwards(rows, lowers) : [.. Upwards([.. rows.Reverse()], uppers).Reverse()];
            rows = Swapped(rows, lowers, uppers);
            if (Count(rows, lowers) is var now && now >= crossings) continue;
            (best, crossings) = (rows, now);
        }
        return best;
    }

    /// <summary>Crossings between neighbouring rows.</summary>
    private static int Count(int[][] rows, ILookup<int, int> lowers)
    {
        var at = Positions(rows);
        return rows.Sum(row => Inversions([.. row.SelectMany(i => lowers[i].Select(l => at[l]).Order())]));
    }

    /// <summary>Each row by the mean place of what its boxes lead to in the row before; a box that leads nowhere stays where it is.</summary>
    private static int[][] Upwards(int[][] rows, ILookup<int, int> lowers)
    {
        var at = Positions(rows);
        List<int[]> sorted = [rows[0]];
        foreach (var row in rows.Skip(1))
        {
            int[] now = [.. row.OrderBy(i => lowers[i].Select(l => (double)at[l]).DefaultIfEmpty(at[i]).Average())];
            for (var k = 0; k < now.Length; k++) at[now[k]] = k;
            sorted.Add(now);
        }
        return [.. sorted];
    }

    /// <summary>Exchanges neighbours as long as that leaves fewer crossings.</summary>
    private static int[][] Swapped(int[][] rows, ILookup<int, int> lowers, ILookup<int, int> uppers)
    {
        int[][] now = [.. rows.Select(r => r.ToArray())];
        var at = Positions(now);
        int Crossed(int left, int right, ILookup<int, int> ends) => ends[left].Sum(a => ends[right].Count(b => at[b] < at[a]));
        for (var gained = true; gained;)
        {
            gained = false;
            foreach (var row in now)
                for (var k = 0; k + 1 < row.Length; k++)
                {
                    var (a, b) = (row[k], row[k + 1]);
                    if (Crossed(a, b, lowers) + Crossed(a, b, uppers) <= Crossed(b, a, lowers) + Crossed(b, a, uppers)) continue;
                    (row[k], row[k + 1], at[a], at[b], gained) = (b, a, k + 1, k, true);
                }
        }
        return now;
    }

    private static Dictionary<int, int> Positions(IEnumerable<int[]> rows) => rows.SelectMany(row => row.Select((i, k) => (i, k))).ToDictionary(p => p.i, p => p.k);

    private static int Inversions(IReadOnlyList<int> values)
    {
        var crossings = 0;
        for (var i = 0; i < values.Count; i++)
            for (var j = i + 1; j < values.Count; j++)
                if (values[j] < values[i]) crossings++;
        return crossings;
    }
}
