using MathNet.Numerics.LinearAlgebra;
using Sandarac.Analysis.Numbers;

namespace Sandarac.Analysis.Alignment;

/// <summary>Where a side runs: depth = A + B t + C t^2 with t = along / length - 1/2. The square takes up the bow of the lens.</summary>
internal sealed record SideCurve(double A, double B, double C, double Length)
{
    /// <summary>Depth at a place along the side.</summary>
    public double At(double along)
    {
        var t = along / Length - 0.5;
        return A + B * t + C * t * t;
    }

    /// <summary>The same curve on a grid that is so many times finer.</summary>
    public SideCurve Scaled(int factor) => new(A * factor, B * factor, C * factor, Length * factor);

    /// <summary>Least squares with Tukey's biweight, begun at this curve.</summary>
    /// <param name="points">Places along the side and their depths.</param>
    /// <param name="leastSigma">Scale below which residuals are not told apart, pixels.</param>
    public SideCurve Fit(IReadOnlyList<(double Along, double Depth)> points, double leastSigma)
    {
        var curve = this;
        for (var i = 0; i < 8; i++)
        {
            double[] residuals = [.. points.Select(p => p.Depth - curve.At(p.Along))];
            var sigma = Math.Max(leastSigma, Robust.Sigma(residuals));
            var design = Matrix<double>.Build.Dense(points.Count, 3, (r, c) => Math.Sqrt(Robust.Biweight(residuals[r], sigma)) * Math.Pow(points[r].Along / Length - 0.5, c));
            var y = Vector<double>.Build.Dense(points.Count, r => Math.Sqrt(Robust.Biweight(residuals[r], sigma)) * points[r].Depth);
            var fit = design.TransposeThisAndMultiply(design).Cholesky().Solve(design.TransposeThisAndMultiply(y));
            curve = new SideCurve(fit[0], fit[1], fit[2], Length);
        }
        return curve;
    }
}
