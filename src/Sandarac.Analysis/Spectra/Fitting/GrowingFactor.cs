namespace Sandarac.Analysis.Spectra.Fitting;

/// <summary>Cholesky's factor of that part of a normal matrix which belongs to chosen columns, scaled so that its diagonal is 1. A column that comes costs one row of the factor, one that leaves the rows after its own.</summary>
/// <param name="normal">Normal matrix, row by row.</param>
/// <param name="right">Right-hand side.</param>
internal sealed class GrowingFactor(double[] normal, double[] right)
{
    /// <summary>Raises the diagonal, so that columns of the same shape part the amount between them.</summary>
    private const double Ridge = 1e-10;

    private readonly int _order = right.Length;
    private readonly double[] _half = new double[right.Length], _row = new double[right.Length];

    /// <summary>The factor's columns from their diagonal down.</summary>
    private readonly double[][] _factor = new double[right.Length][];

    /// <summary>The root of each column's own sum of squares.</summary>
    public double[] Scale { get; } = [.. Enumerable.Range(0, right.Length).Select(i => Math.Sqrt(Math.Max(1e-300, normal[i * right.Length + i])))];

    /// <summary>The chosen columns, in the order in which they came.</summary>
    public List<int> Columns { get; } = [];

    /// <summary>Chooses one more.</summary>
    public void Add(int column)
    {
        var (p, left) = (Columns.Count, Left(column));
        for (var k = 0; k < p; k++) _factor[k][p - k] = _row[k];
        _factor[p] = new double[_order - p];
        _factor[p][0] = Math.Sqrt(left);
        var sum = right[column] / Scale[column];
        for (var k = 0; k < p; k++) sum -= _row[k] * _half[k];
        _half[p] = sum / _factor[p][0];
        Columns.Add(column);
    }

    /// <summary>Lets go of all that a condition meets.</summary>
    public void Remove(Predicate<int> which)
    {
        if (Columns.FindIndex(which) is not (>= 0 and var first)) return;
        var after = Columns[first..];
        Columns.RemoveRange(first, Columns.Count - first);
        foreach (var column in after) if (!which(column)) Add(column);
    }

    /// <summary>The share of a column's squares that the chosen ones cannot take its place in; by the ridge it is never nothing.</summary>
    public double Left(int column)
    {
        var p = Columns.Count;
        var row = _row.AsSpan(0, p);
        var left = normal[column * _order + column] / Scale[column] / Scale[column] + Ridge;
        for (var k = 0; k < p; k++) row[k] = normal[column * _order + Columns[k]] / (Scale[column] * Scale[Columns[k]]);
        for (var k = 0; k < p; k++)
        {
            row[k] /= _factor[k][0];
            left -= row[k] * row[k];
            Rows.Add(row[(k + 1)..], -row[k], _factor[k].AsSpan(1));
        }
        return Math.Max(Ridge, left);
    }

    /// <summary>The chosen columns' amounts, in their order, by least squares.</summary>
    public double[] Solve()
    {
        var x = new double[Columns.Count];
        for (var i = x.Length - 1; i >= 0; i--)
            x[i] = (_half[i] - Rows.Dot(x.AsSpan(i + 1), _factor[i].AsSpan(1))) / _factor[i][0];
        for (var i = 0; i < x.Length; i++) x[i] /= Scale[Columns[i]];
        return x;
    }
}
