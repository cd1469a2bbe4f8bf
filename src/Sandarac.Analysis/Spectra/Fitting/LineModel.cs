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

    private readonly double[] _normal, _right;

    private LineModel(IReadOnlyList<Component> components, double[] counts, ChannelAxis axis, double[] variance, double[]? amounts)
    {
        (Components, Counts, Axis, Variance) = (components, counts, axis, variance);
        (_normal, _right) = (new double[components.Count * components.Count], new double[components.Count]);
        Equations();
        Tie(amounts);
    }

    /// <summary>The columns.</summary>
    public IReadOnlyList<Component> Components { get; }

    /// <summary>What is fitted.</summary>
    public double[] Counts { get; }

    /// <summary>Its channels.</summary>
    public ChannelAxis Axis { get; }

    /// <summary>Variance of each channel: counting, and the doubt about shapes.</summary>
    public double[] Variance { get; }

    /// <summary>Fits all columns, several times, each with the weights and ties of the one before.</summary>
    public static (LineModel Model, NonNegative Fit) Fit(IReadOnlyList<Component> components, double[] counts, ChannelAxis axis, int rounds, Func<Component, double>? start = null)
    {
        int[] all = [.. Enumerable.Range(0, components.Count)];
        var amounts = start is null ? null : components.Select(start).ToArray();
        var variance = amounts is null ? [.. counts.Select(c => Math.Max(1, c))] : Variances(components, amounts, counts.Length);
        for (var round = 1; ; round++)
        {
            var model = new LineModel(components, counts, axis, variance, amounts);
            var fit = NonNegative.Solve(model._normal, model._right, all);
            if (round == rounds) return (model, fit);
            amounts = fit.Amounts;
            variance = Variances(components, amounts, counts.Length);
        }
    }

    /// <summary>The model with weights that are given, and with the amounts by which groups are tied; null for no ties.</summary>
    public static LineModel Weighted(IReadOnlyList<Component> components, double[] counts, ChannelAxis axis, double[] variance, double[]? amounts) => new(components, counts, axis, variance, amounts);

    /// <summary>The fit with some columns only.</summary>
    public NonNegative Solve(IReadOnlyCollection<int> columns, IEnumerable<int>? start = null) => NonNegative.Solve(_normal, _right, columns, start);

    /// <summary>Standard deviation of an added column's amount beside others that are free.</summary>
    public double Sigma(int column, IReadOnlyList<int> beside)
    {
        var own = _normal[column * Components.Count + column];
        if (own <= 0) return double.PositiveInfinity;
        var others = new GrowingFactor(_normal, _right);
        foreach (var b in beside) others.Add(b);
        return 1 / Math.Sqrt(others.Left(column) * own);
    }

    /// <summary>The model's counts from those columns that a condition picks.</summary>
    public double[] Sum(double[] amounts, Func<Component, bool> which) => Sum(Components, amounts, Counts.Length, which);

    private static double[] Sum(IReadOnlyList<Component> components, double[] amounts, int count, Func<Component, bool> which)
    {
        var sum = new double[count];
        for (var k = 0; k < components.Count; k++)
            if (amounts[k] > 0 && which(components[k])) Rows.Add(sum.AsSpan(components[k].From, components[k].Shape.Length), amounts[k], components[k].Shape);
        return sum;
    }

    private static double[] Variances(IReadOnlyList<Component> components, double[] amounts, int count)
    {
        var (all, lines) = (Sum(components, amounts, count, _ => true), Sum(components, amounts, count, c => c.Owner != Component.Ground));
        return [.. all.Zip(lines, (a, l) => Math.Max(1, a) + ShapeDoubt * ShapeDoubt * l * l)];
    }

    private void Equations()
    {
        var ((first, last), n, weighted) = (Axis.Fitted, Components.Count, new double[Counts.Length]);
        for (var i = 0; i < n; i++)
        {
            var a = Components[i];
            var (from, to) = (Math.Max(first, a.From), Math.Min(last + 1, a.From + a.Shape.Length));
            for (var c = from; c < to; c++) weighted[c] = a.Shape[c - a.From] / Variance[c];
            if (from < to) _right[i] = Rows.Dot(weighted.AsSpan(from, to - from), Counts.AsSpan(from));
            for (var j = 0; j <= i; j++)
            {
                var b = Components[j];
                var (low, high) = (Math.Max(from, b.From), Math.Min(to, b.From + b.Shape.Length));
                if (low < high) _normal[i * n + j] = _normal[j * n + i] = Rows.Dot(weighted.AsSpan(low, high - low), b.Shape.AsSpan(low - b.From));
            }
        }
    }

    private void Tie(double[]? amounts)
    {
        var n = Components.Count;
        for (var i = 0; i < n; i++)
        {
            if (Components[i].Owner == Component.Ground) (_normal[i * n + i], _right[i]) = (_normal[i * n + i] + 1 / (GroundTie * GroundTie), _right[i] + 1 / (GroundTie * GroundTie));
            if (Components[i].Owner is Component.Tail or Component.PileUp) _normal[i * n + i] += 1 / (FaultTie * FaultTie);
        }
        if (amounts is null) return;
        foreach (var (i, j, tolerance) in Ties())
        {
            var weight = Math.Pow(tolerance * Math.Max(LeastTied, amounts[i]), -2);
            (_normal[i * n + i], _normal[j * n + j]) = (_normal[i * n + i] + weight, _normal[j * n + j] + weight);
            _normal[i * n + j] = _normal[j * n + i] = _normal[i * n + j] - weight;
        }
    }

    /// <summary>Each group and the first of its shell.</summary>
    private IEnumerable<(int First, int Other, double Tolerance)> Ties() =>
        from shell in Enumerable.Range(0, Components.Count).Where(i => Components[i].IsElement).GroupBy(i => (Components[i].Owner, Components[i].Part[0]))
        from other in shell.Skip(1)
        select (shell.First(), other, Components[other].Part.EndsWith("escape", StringComparison.Ordinal) ? EscapeTie : shell.Key.Item2 == 'K' ? KTie : LTie);
}
