using MathNet.Numerics.LinearAlgebra;
using Sandarac.Analysis.Numbers;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Changes;

/// <summary>
/// Brings the later photograph's exposure, white balance, flare, camera colours and evenness of light to the baseline's:
/// baseline_b = exp(p_b(x, y)) (sum_c M_bc later_c + o_b), p_b a polynomial of third degree over the face. Fitted to the means of cells by least squares with
/// Tukey's biweight (Holland and Welsch, Communications in Statistics A6 (1977) 813), so that what changed in a minority of cells is not matched away.
/// </summary>
internal sealed class LightMatch
{
    private const int Degree = 3, CellsAcross = 80, LeastCell = 8, Rounds = 6;

    /// <summary>Light that counts as dark: relative residuals are reckoned from here on, share of full scale.</summary>
    private const double Dark = 0.002;

    private readonly Vector<double>[] _colours, _gains;
    private readonly int _width, _height;

    private LightMatch(int width, int height, Vector<double>[] colours, Vector<double>[] gains) => (_width, _height, _colours, _gains) = (width, height, colours, gains);

    /// <summary>Fits; null when fewer than a hundred cells have data.</summary>
    public static LightMatch? Fit(ChangePair pair)
    {
        var cells = Cells(pair);
        if (cells.Count < 100) return null;
        var (later, place) = (Rows(cells, c => [.. c.Later, 1]), Rows(cells, c => Terms(c.X, c.Y)));
        var (colours, gains) = (new Vector<double>[pair.Bands], new Vector<double>[pair.Bands]);
        for (var b = 0; b < pair.Bands; b++)
        {
            var baseline = Vector<double>.Build.DenseOfEnumerable(cells.Select(c => c.Baseline[b]));
            gains[b] = Vector<double>.Build.Dense(place.ColumnCount);
            for (var round = 0; round < Rounds; round++)
            {
                var gain = (place * gains[b]).PointwiseExp();
                colours[b] = Biweighted(Scaled(later, gain), baseline, baseline.Map(v => 1 / (Dark + Math.Abs(v))));
                var seen = (later * colours[b]).PointwiseMaximum(1e-4);
                gains[b] = Biweighted(place, baseline.PointwiseMaximum(1e-5).PointwiseDivide(seen).PointwiseLog(), baseline.Map(v => Math.Min(1, v / (10 * Dark))));
            }
        }
        return new LightMatch(pair.Width, pair.Height, colours, gains);
    }

    /// <summary>The later photograph as the baseline's light and camera would show it.</summary>
    public Plane[] Apply(Plane[] later, ParallelOptions threads)
    {
        Plane[] matched = [.. later.Select(b => new Plane(b.Width, b.Height))];
        Parallel.For(0, _height, threads, y =>
        {
            for (var x = 0; x < _width; x++)
                for (var (b, i) = (0, y * _width + x); b < matched.Length; b++)
                {
                    var sum = _colours[b][later.Length];
                    for (var c = 0; c < later.Length; c++) sum += _colours[b][c] * later[c].Data[i];
                    matched[b].Data[i] = (float)(sum * Gain(b, x + 0.5, y + 0.5));
                }
        });
        return matched;
    }

    /// <summary>The gain that differs over the picture, of a band at a place in pixels.</summary>
    public double Gain(int band, double x, double y)
    {
        var (terms, sum) = (Terms(Across(x), Down(y)), 0.0);
        for (var k = 0; k < terms.Length; k++) sum += terms[k] * _gains[band][k];
        return Math.Exp(sum);
    }

    private double Across(double x) => (x - _width / 2.0) / (Math.Max(_width, _height) / 2.0);

    private double Down(double y) => (y - _height / 2.0) / (Math.Max(_width, _height) / 2.0);

    private static double[] Terms(double u, double v)
    {
        var (terms, k) = (new double[(Degree + 1) * (Degree + 2) / 2], 0);
        for (var (i, up) = (0, 1.0); i <= Degree; i++, up *= u)
            for (var (j, vp) = (0, 1.0); i + j <= Degree; j++, vp *= v) terms[k++] = up * vp;
        return terms;
    }

    private static Matrix<double> Rows(IReadOnlyList<Cell> cells, Func<Cell, double[]> row) => Matrix<double>.Build.DenseOfRowArrays(cells.Select(row));

    private static Matrix<double> Scaled(Matrix<double> rows, Vector<double> by) => Matrix<double>.Build.Dense(rows.RowCount, rows.ColumnCount, (r, c) => rows[r, c] * by[r]);

    private static Vector<double> Biweighted(Matrix<double> rows, Vector<double> right, Vector<double> weights)
    {
        var (robust, solution) = (Vector<double>.Build.Dense(right.Count, 1), Vector<double>.Build.Dense(rows.ColumnCount));
        for (var round = 0; round < Rounds; round++)
        {
            var root = weights.PointwiseMultiply(robust.PointwiseSqrt());
            var scaled = Scaled(rows, root);
            var normal = scaled.TransposeThisAndMultiply(scaled);
            // A hair on the diagonal: bands that are equal, as a grey file's are, have no solution of their own.
            var hair = Matrix<double>.Build.DenseIdentity(normal.RowCount) * (1e-10 * normal.Trace());
            solution = (normal + hair).Cholesky().Solve(scaled.TransposeThisAndMultiply(right.PointwiseMultiply(root)));
            var residual = (right - rows * solution).PointwiseMultiply(weights);
            var sigma = 1e-9 + 1.4826 * Robust.Median(residual.Select(Math.Abs));
            robust = residual.Map(r => Robust.Biweight(r, sigma), Zeros.Include);
        }
        return solution;
    }

    private static List<Cell> Cells(ChangePair pair)
    {
        var (side, cells) = (Math.Max(LeastCell, Math.Max(pair.Width, pair.Height) / CellsAcross), new List<Cell>());
        var half = Math.Max(pair.Width, pair.Height) / 2.0;
        for (var top = 0; top < pair.Height; top += side)
            for (var left = 0; left < pair.Width; left += side)
            {
                var (sums, count) = (new double[2 * pair.Bands], 0);
                for (var y = top; y < Math.Min(top + side, pair.Height); y++)
                    for (var i = y * pair.Width + left; i < y * pair.Width + Math.Min(left + side, pair.Width); i++)
                    {
                        if (!pair.Shows(i)) continue;
                        count++;
                        for (var b = 0; b < pair.Bands; b++) (sums[b], sums[pair.Bands + b]) = (sums[b] + pair.Baseline[b].Data[i], sums[pair.Bands + b] + pair.Later[b].Data[i]);
                    }
                if (2 * count >= side * side)
                    cells.Add(new Cell((left + side / 2.0 - pair.Width / 2.0) / half, (top + side / 2.0 - pair.Height / 2.0) / half,
                        [.. sums[..pair.Bands].Select(s => s / count)], [.. sums[pair.Bands..].Select(s => s / count)]));
            }
        return cells;
    }

    private sealed record Cell(double X, double Y, double[] Baseline, double[] Later);
}
