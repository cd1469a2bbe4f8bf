using MathNet.Numerics.LinearAlgebra;

namespace Sandarac.Imaging.Geometry;

/// <summary>
/// A plane projective transformation, p' ~ H p with p = (x, y, 1). Row-major <c>[h00 h01 h02 h10 h11 h12 h20 h21 h22]</c>, scaled to h22 = 1.
/// Hartley and Zisserman, Multiple View Geometry, 2nd ed. (2004), 2.3 and algorithm 4.2 (normalised DLT).
/// </summary>
public readonly record struct Homography
{
    private readonly double[] _h;

    /// <summary>Wraps nine row-major coefficients.</summary>
    /// <exception cref="ArgumentException">Not nine finite numbers, or h22 = 0.</exception>
    public Homography(IReadOnlyList<double> rowMajor)
    {
        if (rowMajor.Count != 9 || rowMajor.Any(v => !double.IsFinite(v)) || rowMajor[8] == 0)
            throw new ArgumentException("A homography has nine finite coefficients with h22 other than 0.", nameof(rowMajor));
        _h = [.. rowMajor.Select(v => v / rowMajor[8])];
    }

    /// <summary>The nine coefficients, row-major, h22 = 1.</summary>
    public IReadOnlyList<double> Coefficients => _h;

    /// <summary>Maps a point.</summary>
    public Point2 Apply(Point2 p)
    {
        var w = _h[6] * p.X + _h[7] * p.Y + _h[8];
        return new Point2((_h[0] * p.X + _h[1] * p.Y + _h[2]) / w, (_h[3] * p.X + _h[4] * p.Y + _h[5]) / w);
    }

    /// <summary>First <paramref name="other"/>, then this.</summary>
    public Homography After(Homography other)
    {
        var (a, b) = (Matrix<double>.Build.DenseOfRowMajor(3, 3, _h), Matrix<double>.Build.DenseOfRowMajor(3, 3, other._h));
        return new Homography((a * b).ToRowMajorArray());
    }

    /// <summary>The inverse mapping.</summary>
    /// <exception cref="InvalidOperationException">The matrix is singular.</exception>
    public Homography Inverse()
    {
        var m = Matrix<double>.Build.DenseOfRowMajor(3, 3, _h);
        if (Math.Abs(m.Determinant()) < 1e-300) throw new InvalidOperationException("The homography is singular.");
        return new Homography(m.Inverse().ToRowMajorArray());
    }

    /// <summary>The least-squares homography that takes <paramref name="from"/> to <paramref name="to"/>: normalised direct linear transformation.</summary>
    /// <param name="from">At least four points, no three of the first four on a line.</param>
    /// <param name="to">As many points.</param>
    /// <exception cref="ArgumentException">Fewer than four pairs, or a degenerate arrangement.</exception>
    public static Homography Fit(IReadOnlyList<Point2> from, IReadOnlyList<Point2> to)
    {
        if (from.Count < 4 || from.Count != to.Count) throw new ArgumentException("A homography needs at least four pairs of points.", nameof(from));
        var (nf, tf) = Normalise(from);
        var (nt, tt) = Normalise(to);
        var a = Matrix<double>.Build.Dense(Math.Max(9, 2 * from.Count), 9);
        for (var i = 0; i < from.Count; i++)
        {
            a.SetRow(2 * i, [-nf[i].X, -nf[i].Y, -1, 0, 0, 0, nt[i].X * nf[i].X, nt[i].X * nf[i].Y, nt[i].X]);
            a.SetRow(2 * i + 1, [0, 0, 0, -nf[i].X, -nf[i].Y, -1, nt[i].Y * nf[i].X, nt[i].Y * nf[i].Y, nt[i].Y]);
        }
        var svd = a.Svd();
        if (svd.S[7] < 1e-10 * svd.S[0]) throw new ArgumentException("The points do not determine a homography.", nameof(from));
        var h = Matrix<double>.Build.DenseOfRowMajor(3, 3, svd.VT.Row(8));
        return new Homography((tt.Inverse() * h * tf).ToRowMajorArray());
    }

    private static (Point2[] Points, Matrix<double> Transform) Normalise(IReadOnlyList<Point2> points)
    {
        var (cx, cy) = (points.Average(p => p.X), points.Average(p => p.Y));
        var mean = points.Average(p => p.DistanceTo(new Point2(cx, cy)));
        var s = mean > 0 ? Math.Sqrt(2) / mean : 1;
        var transform = Matrix<double>.Build.DenseOfRowMajor(3, 3, [s, 0, -s * cx, 0, s, -s * cy, 0, 0, 1]);
        return ([.. points.Select(p => new Point2(s * (p.X - cx), s * (p.Y - cy)))], transform);
    }
}
