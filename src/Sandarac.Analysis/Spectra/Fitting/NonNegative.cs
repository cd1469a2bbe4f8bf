using MathNet.Numerics.LinearAlgebra;

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
    /// <param name="normal">Normal matrix.</param>
    /// <param name="right">Right-hand side.</param>
    /// <param name="columns">Columns that may have an amount.</param>
    /// <param name="start">Columns that probably have one; it only saves time.</param>
    public static NonNegative Solve(Matrix<double> normal, double[] right, IReadOnlyCollection<int> columns, IEnumerable<int>? start = null)
    {
        var x = new double[right.Length];
        var scale = Enumerable.Range(0, right.Length).Select(i => Math.Sqrt(Math.Max(1e-300, normal[i, i]))).ToArray();
        List<int> positive = [.. (start ?? []).Where(columns.Contains)];
        HashSet<int> refused = [];
        if (positive.Count > 0) Settle(normal, right, scale, x, positive);
        for (var step = 0; step < MostSteps; step++)
        {
            var (best, most) = (-1, Tolerance);
            foreach (var c in columns)
            {
                if (positive.Contains(c) || refused.Contains(c)) continue;
                var gradient = right[c] - positive.Sum(p => normal[c, p] * x[p]);
                if (gradient / scale[c] > most * Math.Max(1, right[c] / scale[c])) (best, most) = (c, gradient / scale[c] / Math.Max(1, right[c] / scale[c]));
            }
            if (best < 0) break;
            positive.Add(best);
            Settle(normal, right, scale, x, positive);
            // One that leaves at once would enter again for ever: its gradient is rounding.
            if (positive.Contains(best)) refused.Clear();
            else refused.Add(best);
        }
        var value = positive.Sum(i => x[i] * (positive.Sum(j => normal[i, j] * x[j]) - 2 * right[i]));
        return new NonNegative(x, value, positive);
    }

    /// <summary>Solves for the columns with an amount, and lets go of those that would become negative.</summary>
    private static void Settle(Matrix<double> normal, double[] right, double[] scale, double[] x, List<int> positive)
    {
        while (positive.Count > 0)
        {
            var wanted = Unbounded(normal, right, scale, positive);
            if (Enumerable.Range(0, positive.Count).All(k => wanted[k] > 0))
            {
                for (var k = 0; k < positive.Count; k++) x[positive[k]] = wanted[k];
                return;
            }
            var alpha = Enumerable.Range(0, positive.Count).Where(k => wanted[k] <= 0).Min(k => x[positive[k]] / (x[positive[k]] - wanted[k] + 1e-300));
            for (var k = 0; k < positive.Count; k++) x[positive[k]] += alpha * (wanted[k] - x[positive[k]]);
            var least = Enumerable.Range(0, positive.Count).Where(k => wanted[k] <= 0).Min(k => x[positive[k]] * scale[positive[k]]);
            for (var k = positive.Count - 1; k >= 0; k--)
            {
                if (wanted[k] > 0 || x[positive[k]] * scale[positive[k]] > least + 1e-12) continue;
                x[positive[k]] = 0;
                positive.RemoveAt(k);
            }
        }
    }

    private static Vector<double> Unbounded(Matrix<double> normal, double[] right, double[] scale, List<int> positive)
    {
        var part = Matrix<double>.Build.Dense(positive.Count, positive.Count, (i, j) => normal[positive[i], positive[j]] / scale[positive[i]] / scale[positive[j]] + (i == j ? 1e-10 : 0));
        var solved = part.Cholesky().Solve(Vector<double>.Build.Dense(positive.Count, i => right[positive[i]] / scale[positive[i]]));
        return Vector<double>.Build.Dense(positive.Count, i => solved[i] / scale[positive[i]]);
    }
}
