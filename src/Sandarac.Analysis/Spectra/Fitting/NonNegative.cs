namespace Sandarac.Analysis.Spectra.Fitting;

/// <summary>Least squares without negative amounts, on the normal equations: R. Bro and S. de Jong, J. Chemometrics 11 (1997) 393 (from memory), after Lawson and Hanson.</summary>
/// <param name="Amounts">One for each column; 0 for columns that were not asked for.</param>
/// <param name="Value">a'Na - 2b'a at the minimum: differences between two are differences of the sum of weighted squares.</param>
/// <param name="Positive">Columns with an amount.</param>
internal sealed record NonNegative(double[] Amounts, double Value, IReadOnlyList<int> Positive)
{
    /// <summary>Far more steps than columns enter and leave in.</summary>
    private const int MostSteps = 2000;

    /// <summary>A gradient below this share of a column's scale is none.</summary>
    private const double Tolerance = 1e-9;

    /// <summary>Solves.</summary>
    /// <param name="normal">Normal matrix, row by row.</param>
    /// <param name="right">Right-hand side.</param>
    /// <param name="columns">Columns that may have an amount.</param>
    /// <param name="start">Columns that probably have one; it only saves time.</param>
    public static NonNegative Solve(double[] normal, double[] right, IReadOnlyCollection<int> columns, IEnumerable<int>? start = null)
    {
        var (x, factor, refused) = (new double[right.Length], new GrowingFactor(normal, right), new HashSet<int>());
        foreach (var c in (start ?? []).Where(columns.Contains)) factor.Add(c);
        Settle(factor, x);
        for (var step = 0; step < MostSteps && Steepest(normal, right, x, factor, columns.Where(c => x[c] == 0 && !refused.Contains(c))) is >= 0 and var best; step++)
        {
            factor.Add(best);
            Settle(factor, x);
            // One that leaves at once would enter again for ever: its gradient is rounding.
            if (factor.Columns.Contains(best)) refused.Clear();
            else refused.Add(best);
        }
        return new NonNegative(x, -Rows.Dot(x, right) - Rows.Dot(x, Gradient(normal, right, x, factor.Columns)), factor.Columns);
    }

    /// <summary>The column that gains most by an amount; -1 when none gains.</summary>
    private static int Steepest(double[] normal, double[] right, double[] x, GrowingFactor factor, IEnumerable<int> columns)
    {
        var (gradient, best, most) = (Gradient(normal, right, x, factor.Columns), -1, Tolerance);
        foreach (var c in columns)
            if (gradient[c] / factor.Scale[c] / Math.Max(1, right[c] / factor.Scale[c]) is var gain && gain > most) (best, most) = (c, gain);
        return best;
    }

    /// <summary>b - Na.</summary>
    private static double[] Gradient(double[] normal, double[] right, double[] x, IReadOnlyList<int> positive)
    {
        var left = (double[])right.Clone();
        foreach (var p in positive) Rows.Add(left, -x[p], normal.AsSpan(p * left.Length));
        return left;
    }

    /// <summary>Solves for the columns with an amount, and lets go of those that would become negative.</summary>
    private static void Settle(GrowingFactor factor, double[] x)
    {
        while (factor.Columns.Count > 0)
        {
            var (wanted, columns) = (factor.Solve(), factor.Columns);
            int[] falling = [.. Enumerable.Range(0, wanted.Length).Where(k => wanted[k] <= 0)];
            var alpha = falling.Length == 0 ? 1 : falling.Min(k => x[columns[k]] / (x[columns[k]] - wanted[k] + 1e-300));
            for (var k = 0; k < wanted.Length; k++) x[columns[k]] = falling.Length == 0 ? wanted[k] : x[columns[k]] + alpha * (wanted[k] - x[columns[k]]);
            if (falling.Length == 0) return;
            var least = falling.Min(k => x[columns[k]] * factor.Scale[columns[k]]);
            HashSet<int> gone = [.. falling.Select(k => columns[k]).Where(c => x[c] * factor.Scale[c] <= least + 1e-12)];
            foreach (var c in gone) x[c] = 0;
            factor.Remove(gone.Contains);
        }
    }
}
