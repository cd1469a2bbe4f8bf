namespace Sandarac.Analysis.Quality;

/// <summary>A line x = X0 + Slope (y - Y0) through edge positions.</summary>
/// <param name="X0">Mean column.</param>
/// <param name="Y0">Mean row.</param>
/// <param name="Slope">Columns for each row.</param>
/// <param name="Scatter">Standard deviation of the positions around the line, pixels.</param>
internal sealed record EdgeLine(double X0, double Y0, double Slope, double Scatter)
{
    /// <summary>Cosine of the slant: turns distances along a row into distances from the line.</summary>
    public double Cosine => 1 / Math.Sqrt(1 + Slope * Slope);

    /// <summary>The column in which the line crosses a row.</summary>
    public double At(double y) => X0 + Slope * (y - Y0);

    /// <summary>Least squares.</summary>
    public static EdgeLine Fit(IReadOnlyList<(double X, double Y)> points)
    {
        var (x0, y0) = (points.Average(p => p.X), points.Average(p => p.Y));
        var slope = points.Sum(p => (p.X - x0) * (p.Y - y0)) / points.Sum(p => (p.Y - y0) * (p.Y - y0));
        var sum = points.Sum(p => Math.Pow(p.X - x0 - slope * (p.Y - y0), 2));
        return new EdgeLine(x0, y0, slope, Math.Sqrt(sum / (points.Count - 2)));
    }
}
