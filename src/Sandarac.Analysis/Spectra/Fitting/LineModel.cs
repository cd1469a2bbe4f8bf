using MathNet.Numerics.LinearAlgebra;

namespace Sandarac.Analysis.Spectra.Fitting;

/// <summary>A spectrum as a sum of columns with amounts of 0 or more, by weighted least squares. Amounts that physics ties loosely, such as Ka and Kb, are held together by penalties: how far they may part is stated, and counts as uncertainty.</summary>
internal sealed class LineModel
{
    /// <summary>How far from the expected ratio groups of one shell lie in paint, one standard deviation: matrix, air and what excites change them. Escape: the detector's shape. The background's factor. Shares of the counts in tails and pile-up, about 0. Ours, no source.</summary>
    private const double KTie = 0.10, LTie = 0.25, EscapeTie = 0.5, GroundTie = 0.15, FaultTie = 0.01;

    /// <summary>A line's shape is not quite a Gaussian: one standard deviation of the model at each channel, as a share of its lines.</summary>
    private const double ShapeDoubt = 0.01;

    /// <summary>Least amount that a tie is stated for, counts: below, counting decides.</summary>
    private const double LeastTied = 20;

    private readonly Matrix<double> _normal;
    private readonly double[] _right;

    private LineModel(IReadOnlyList<Component> components, IReadOnlyList<double> counts, ChannelAxis axis, double[] variance, double[]? amounts)
    {
        (Components, Counts, Axis, Variance) = (components, counts, axis, variance);
        (_normal, _right) = Equations();
        Tie(amounts);
    }

    /// <summary>The columns.</summary>
    public IReadOnlyList<Component> Components { get; }

    /// <summary>What is fitted.</summary>
    public IReadOnlyList<double> Counts { get; }

    /// <summary>Its channels.</summary>
    public ChannelAxis Axis { get; }

    /// <summary>Variance of each channel: counting, and the doubt about shapes.</summary>
    public double[] Variance { get; }

    /// <summary>Fits all columns, several times, each with the weights and ties of the one before.</summary>
    public static (LineModel Model, NonNegative Fit) Fit(IReadOnlyList<Component> components, IReadOnlyList<double> counts, ChannelAxis axis, int rounds, Func<Component, double>? start = null)
    {
        int[] all = [.. Enumerable.Range(0, components.Count)];
        var amounts = start is null ? null : components.Select(start).ToArray();
        var variance = amounts is null ? [.. counts.Select(c => Math.Max(1, c))] : Variances(components, amounts, counts.Count);
        for (var round = 1; ; round++)
        {
            var model = new LineModel(components, counts, axis, variance, amounts);
            var fit = NonNegative.Solve(model._normal, model._right, all);
            if (round == rounds) return (model, fit);
            amounts = fit.Amounts;
            variance = Variances(components, amounts, counts.Count);
        }
    }

    /// <summary>The fit with some columns only.</summary>
    public NonNegative Solve(IReadOnlyCollection<int> columns, IEnumerable<int>? start = null) => NonNegative.Solve(_normal, _right, columns, start);

    /// <summary>Standard deviation of an added column's amount beside others that are free.</summary>
    public double Sigma(int column, IReadOnlyList<int> beside)
    {
        var own = _normal[column, column];
        if (own <= 0) return double.PositiveInfinity;
        if (beside.Count == 0) return 1 / Math.Sqrt(own);
        var scale = beside.Select(b => Math.Sqrt(_normal[b, b])).ToArray();
        var others = Matrix<double>.Build.Dense(beside.Count, beside.Count, (i, j) => _normal[beside[i], beside[j]] / scale[i] / scale[j] + (i == j ? 1e-10 : 0));
        var cross = Vector<double>.Build.Dense(beside.Count, i => _normal[column, beside[i]] / scale[i]);
        return 1 / Math.Sqrt(Math.Max(1e-12 * own, own - cross.DotProduct(others.Cholesky().Solve(cross))));
    }

    /// <summary>The model's counts from those columns that a condition picks.</summary>
    public double[] Sum(double[] amounts, Func<Component, bool> which) => Sum(Components, amounts, Counts.Count, which);

    private static double[] Sum(IReadOnlyList<Component> components, double[] amounts, int count, Func<Component, bool> which)
    {
        var sum = new double[count];
        for (var k = 0; k < components.Count; k++)
            for (var i = 0; amounts[k] > 0 && which(components[k]) && i < components[k].Shape.Length; i++) sum[components[k].From + i] += amounts[k] * components[k].Shape[i];
        return sum;
    }

    private static double[] Variances(IReadOnlyList<Component> components, double[] amounts, int count)
    {
        var (all, lines) = (Sum(components, amounts, count, _ => true), Sum(components, amounts, count, c => c.Owner != Component.Ground));
        return [.. all.Zip(lines, (a, l) => Math.Max(1, a) + ShapeDoubt * ShapeDoubt * l * l)];
    }

    private (Matrix<double>, double[]) Equations()
    {
        var (first, last) = Axis.Fitted;
        var normal = Matrix<double>.Build.Dense(Components.Count, Components.Count);
        var right = new double[Components.Count];
        for (var i = 0; i < Components.Count; i++)
        {
            var a = Components[i];
            for (var c = Math.Max(first, a.From); c <= Math.Min(last, a.From + a.Shape.Length - 1); c++) right[i] += a.Shape[c - a.From] * Counts[c] / Variance[c];
            for (var j = 0; j <= i; j++)
            {
                var (b, sum) = (Components[j], 0.0);
                for (var c = Math.Max(first, Math.Max(a.From, b.From)); c <= Math.Min(last, Math.Min(a.From + a.Shape.Length, b.From + b.Shape.Length) - 1); c++) sum += a.Shape[c - a.From] * b.Shape[c - b.From] / Variance[c];
                normal[i, j] = normal[j, i] = sum;
            }
        }
        return (normal, right);
    }

    private void Tie(double[]? amounts)
    {
        for (var i = 0; i < Components.Count; i++)
        {
            if (Components[i].Owner == Component.Ground) (_normal[i, i], _right[i]) = (_normal[i, i] + 1 / (GroundTie * GroundTie), _right[i] + 1 / (GroundTie * GroundTie));
            if (Components[i].Owner is Component.Tail or Component.PileUp) _normal[i, i] += 1 / (FaultTie * FaultTie);
        }
        if (amounts is null) return;
        foreach (var (i, j, tolerance) in Ties())
        {
            var weight = Math.Pow(tolerance * Math.Max(LeastTied, amounts[i]), -2);
            (_normal[i, i], _normal[j, j]) = (_normal[i, i] + weight, _normal[j, j] + weight);
            _normal[i, j] = _normal[j, i] = _normal[i, j] - weight;
        }
    }

    /// <summary>Each group and the first of its shell.</summary>
    private IEnumerable<(int First, int Other, double Tolerance)> Ties() =>
        from shell in Enumerable.Range(0, Components.Count).Where(i => Components[i].IsElement).GroupBy(i => (Components[i].Owner, Components[i].Part[0]))
        from other in shell.Skip(1)
        select (shell.First(), other, Components[other].Part.EndsWith("escape", StringComparison.Ordinal) ? EscapeTie : shell.Key.Item2 == 'K' ? KTie : LTie);
}
