namespace Sandarac.Studio.BuildUp.Drawing;

/// <summary>Gives the boxes of ordered rows their places, so that links bend little and boxes keep their distance.</summary>
internal static class RowPlacing
{
    /// <summary>A passing link needs less room than a box.</summary>
    public const double PassingWidth = 0.12;

    /// <summary>Long links count more, so that they run straight.</summary>
    private const double StraightWeight = 4;

    private const int Rounds = 40;

    /// <summary>x of every box and passing link, in units of a box with its gap; the leftmost at 0.</summary>
    /// <param name="rows">Rows from the bottom, each from left to right.</param>
    /// <param name="steps">Upper and lower end of each step.</param>
    /// <param name="all">Boxes and passing links together.</param>
    /// <param name="boxes">Numbers below are boxes; the others are passing links.</param>
    public static double[] Of(int[][] rows, IReadOnlyList<(int Upper, int Lower)> steps, int all, int boxes)
    {
        var neighbours = steps.Concat(steps.Select(s => (s.Lower, s.Upper))).ToLookup(s => s.Item1, s => s.Item2);
        double Width(int i) => i < boxes ? 1 : PassingWidth;
        double Weight(int a, int b) => a >= boxes || b >= boxes ? StraightWeight : 1;
        var x = new double[all];
        // No row is spread wider than the widest needs to be: the drawing fits a screen.
        var offsets = rows.Select(row => Offsets(row, Width)).ToArray();
        var half = offsets.Select(o => o[^1]).DefaultIfEmpty(0).Max() / 2;
        for (var r = 0; r < rows.Length; r++) for (var k = 0; k < rows[r].Length; k++) x[rows[r][k]] = offsets[r][k] - offsets[r][^1] / 2;
        for (var round = 0; round < Rounds; round++)
            for (var step = 0; step < rows.Length; step++)
            {
                var r = round % 2 == 0 ? step : rows.Length - 1 - step;
                Place(rows[r], offsets[r], x, neighbours, Weight, half);
            }
        var left = all == 0 ? 0 : x.Min();
        return [.. x.Select(v => v - left)];
    }

    private static double[] Offsets(int[] row, Func<int, double> width)
    {
        var offsets = new double[row.Length];
        for (var k = 1; k < row.Length; k++) offsets[k] = offsets[k - 1] + (width(row[k - 1]) + width(row[k])) / 2;
        return offsets;
    }

    /// <summary>The places nearest, by least squares, to the mean of the neighbours', that keep order and distance and stay within half a width of the middle: an isotonic regression of what is left after the distances are taken off, brought to the bounds where it leaves them.</summary>
    /// <remarks>Pooled neighbours: M. Ayer et al., An empirical distribution function for sampling with incomplete information, Ann. Math. Stat. 26 (1955) 641-647.</remarks>
    private static void Place(int[] row, double[] offsets, double[] x, ILookup<int, int> neighbours, Func<int, int, double> weightOf, double half)
    {
        Stack<(double Sum, double Weight, int Count)> pools = new();
        for (var k = 0; k < row.Length; k++)
        {
            var i = row[k];
            var weight = neighbours[i].Sum(n => weightOf(i, n));
            var wanted = weight > 0 ? neighbours[i].Sum(n => weightOf(i, n) * x[n]) / weight : x[i];
            // What has no neighbours gives way.
            if (weight == 0) weight = 0.01;
            (double Sum, double Weight, int Count) pool = ((wanted - offsets[k]) * weight, weight, 1);
            while (pools.TryPeek(out var left) && left.Sum / left.Weight >= pool.Sum / pool.Weight) pool = (pool.Sum + pools.Pop().Sum, pool.Weight + left.Weight, pool.Count + left.Count);
            pools.Push(pool);
        }
        var at = 0;
        foreach (var (sum, weight, count) in pools.Reverse()) for (var c = 0; c < count; c++, at++) x[row[at]] = Math.Clamp(sum / weight, -half, half - offsets[^1]) + offsets[at];
    }
}
