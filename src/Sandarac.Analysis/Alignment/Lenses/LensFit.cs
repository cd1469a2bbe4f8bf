using MathNet.Numerics.LinearAlgebra;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Alignment.Lenses;

/// <summary>
/// The lens that makes flat boards flat: for each frame a homography, for all frames one lens as <see cref="HomographyMap"/> has it, by least squares on the corners' places in pixels
/// (Zhang, IEEE Transactions on Pattern Analysis and Machine Intelligence 22 (2000) 1330, without the focal length, which a plane's map does not need). Gauss and Newton's method.
/// </summary>
/// <param name="Lens">Its centre, radius and coefficients; the homography is the identity.</param>
/// <param name="Uncertainty">Half-widths of the 95 % intervals of k1, k2, and the centre's x and y in pixels.</param>
/// <param name="Residuals">Distances of the corners from where the fit has them, pixels.</param>
internal sealed record LensFit(HomographyMap Lens, double[] Uncertainty, double[] Residuals)
{
    private const int Steps = 20;

    /// <summary>A lens's centre lies near the frame's, within two hundredths of the half diagonal: worth one corner at its own spread. Without distortion nothing else would hold it.</summary>
    private const double CentreShare = 0.02;

    /// <summary>Fits.</summary>
    /// <param name="boards">At least one board.</param>
    /// <param name="width">Width of the frames, pixels.</param>
    /// <param name="height">Height of the frames, pixels.</param>
    public static LensFit Of(IReadOnlyList<Board> boards, int width, int height)
    {
        var (middle, radius) = (new Point2(width / 2.0, height / 2.0), Math.Sqrt((double)width * width + (double)height * height) / 2);
        var p = Vector<double>.Build.DenseOfEnumerable([0, 0, 0, 0, .. boards.SelectMany(b => Start(b, middle, radius))]);
        var spread = 1.0;
        Matrix<double> jacobian = null!;
        for (var step = 0; step <= Steps; step++)
        {
            var off = Off(p, boards, middle, radius);
            spread = Math.Max(1e-9, Math.Sqrt(off.DotProduct(off) / Math.Max(1, off.Count - p.Count)));
            jacobian = Jacobian(p, boards, middle, radius, off);
            if (step == Steps) break;
            var (normal, gradient) = (jacobian.TransposeThisAndMultiply(jacobian), jacobian.TransposeThisAndMultiply(off));
            var hold = spread / CentreShare * (spread / CentreShare);
            for (var i = 2; i < 4; i++) (normal[i, i], gradient[i]) = (normal[i, i] + hold, gradient[i] + hold * p[i]);
            p -= normal.Solve(gradient);
        }
        var information = jacobian.TransposeThisAndMultiply(jacobian);
        for (var i = 2; i < 4; i++) information[i, i] += spread / CentreShare * (spread / CentreShare);
        var covariance = information.Inverse();
        double Half(int i, double unit) => 1.96 * spread * unit * Math.Sqrt(covariance[i, i]);
        var last = Off(p, boards, middle, radius);
        var lens = new HomographyMap([1, 0, 0, 0, 1, 0, 0, 0, 1], new Point2(middle.X + radius * p[2], middle.Y + radius * p[3]), radius, p[0], p[1]);
        return new LensFit(lens, [Half(0, 1), Half(1, 1), Half(2, radius), Half(3, radius)],
            [.. Enumerable.Range(0, last.Count / 2).Select(i => radius * Math.Sqrt(last[2 * i] * last[2 * i] + last[2 * i + 1] * last[2 * i + 1]))]);
    }

    /// <summary>Eight coefficients from board places to frame places in half diagonals from the middle.</summary>
    private static IEnumerable<double> Start(Board board, Point2 middle, double radius) => Homography.Fit(
        [.. board.Places.Select(c => OnBoard(board, c))], [.. board.Places.Select(c => new Point2((c.At.X - middle.X) / radius, (c.At.Y - middle.Y) / radius))]).Coefficients.Take(8);

    /// <summary>A place on the board, counted from its middle and in its half diagonal.</summary>
    private static Point2 OnBoard(Board board, (int Column, int Row, Point2 At) c)
    {
        var (x, y) = (board.Places.Average(q => q.Column), board.Places.Average(q => q.Row));
        var unit = board.Places.Max(q => Math.Max(Math.Abs(q.Column - x), Math.Abs(q.Row - y)));
        return new Point2((c.Column - x) / unit, (c.Row - y) / unit);
    }

    /// <summary>Differences of the corners' places from the fit's, x and y in turn, in half diagonals.</summary>
    private static Vector<double> Off(Vector<double> p, IReadOnlyList<Board> boards, Point2 middle, double radius)
    {
        var lens = new HomographyMap([1, 0, 0, 0, 1, 0, 0, 0, 1], new Point2(p[2], p[3]), 1, p[0], p[1]);
        List<double> off = [];
        for (var b = 0; b < boards.Count; b++)
        {
            var board = new Homography([.. p.Skip(4 + 8 * b).Take(8), 1]);
            foreach (var corner in boards[b].Places)
            {
                var at = lens.ToPixel(board.Apply(OnBoard(boards[b], corner)));
                off.Add(at.X - (corner.At.X - middle.X) / radius);
                off.Add(at.Y - (corner.At.Y - middle.Y) / radius);
            }
        }
        return Vector<double>.Build.DenseOfEnumerable(off);
    }

    private static Matrix<double> Jacobian(Vector<double> p, IReadOnlyList<Board> boards, Point2 middle, double radius, Vector<double> off)
    {
        const double step = 1e-6;
        var jacobian = Matrix<double>.Build.Dense(off.Count, p.Count);
        for (var i = 0; i < p.Count; i++)
        {
            var moved = p.Clone();
            moved[i] += step;
            jacobian.SetColumn(i, (Off(moved, boards, middle, radius) - off) / step);
        }
        return jacobian;
    }
}
