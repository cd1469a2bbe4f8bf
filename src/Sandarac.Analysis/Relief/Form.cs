using MathNet.Numerics.LinearAlgebra;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Relief;

/// <summary>The form that is taken away from a height map before it is judged (F-operation of ISO 25178-2): a polynomial by least squares.</summary>
/// <remarks>Slopes that are off by a thousandth everywhere tilt or bend a height map by as much as its relief: over half a metre a thousandth is half a millimetre. A polynomial of second
/// degree takes that away, and with it the panel's own tilt and even curvature.</remarks>
public static class Form
{
    /// <summary>Takes the form away in place.</summary>
    /// <param name="height">Height; NaN is left out and stays.</param>
    /// <param name="degree">0 for the mean, 1 for a tilted plane, 2 for a surface of second degree.</param>
    /// <param name="parallel">Threads.</param>
    /// <returns>The greatest less the smallest value of what was taken away, over the known pixels.</returns>
    public static double Remove(Plane height, int degree, ParallelOptions? parallel = null)
    {
        parallel ??= new ParallelOptions();
        var (terms, rows) = (Terms(0, 0, degree).Length, new (Matrix<double> Normal, Vector<double> Right)[height.Height]);
        Parallel.For(0, height.Height, parallel, y => rows[y] = Sums(height, y, degree, terms));
        var (normal, right) = (Matrix<double>.Build.Dense(terms, terms), Vector<double>.Build.Dense(terms));
        foreach (var (n, r) in rows) (normal, right) = (normal + n, right + r);
        // Too few places for a form leave the shortest of all fits (pseudo-inverse), not a wild one.
        var fit = normal.PseudoInverse() * right;
        var ranges = new (double Low, double High)[height.Height];
        Parallel.For(0, height.Height, parallel, y => ranges[y] = Subtract(height, y, degree, fit));
        return Math.Max(0, ranges.Max(r => r.High) - ranges.Min(r => r.Low));
    }

    private static (Matrix<double>, Vector<double>) Sums(Plane height, int y, int degree, int count)
    {
        var (normal, right) = (new double[count, count], new double[count]);
        var row = height.Row(y);
        for (var x = 0; x < row.Length; x++)
        {
            if (!float.IsFinite(row[x])) continue;
            var t = Terms(Place(x, height.Width), Place(y, height.Height), degree);
            for (var i = 0; i < count; i++)
            {
                right[i] += t[i] * row[x];
                for (var j = 0; j < count; j++) normal[i, j] += t[i] * t[j];
            }
        }
        return (Matrix<double>.Build.DenseOfArray(normal), Vector<double>.Build.DenseOfArray(right));
    }

    private static (double Low, double High) Subtract(Plane height, int y, int degree, Vector<double> fit)
    {
        var (low, high) = (double.PositiveInfinity, double.NegativeInfinity);
        var row = height.Row(y);
        for (var x = 0; x < row.Length; x++)
        {
            if (!float.IsFinite(row[x])) continue;
            var t = Terms(Place(x, height.Width), Place(y, height.Height), degree);
            var form = 0.0;
            for (var i = 0; i < t.Length; i++) form += t[i] * fit[i];
            row[x] -= (float)form;
            (low, high) = (Math.Min(low, form), Math.Max(high, form));
        }
        return (low, high);
    }

    private static double Place(int i, int count) => 2 * (i + 0.5) / count - 1;

    private static double[] Terms(double x, double y, int degree) => degree switch
    {
        0 => [1],
        1 => [1, x, y],
        _ => [1, x, y, x * x, x * y, y * y],
    };
}
