namespace Sandarac.Analysis.Lines;

/// <summary>What is taken for a line, in pixels.</summary>
/// <param name="Width">Full width.</param>
internal sealed record LineShape(double Width)
{
    /// <summary>Standard deviation of the smoothing across a line. A bar needs at least 0.29 of its width to have one extremum (Steger, section 2.2: width / (2 sqrt 3)); a drawn line is softer than a bar.</summary>
    public double Across => 0.4 * Width;

    /// <summary>Standard deviation of the averaging along a line: a line is followed over some eight times its width.</summary>
    public double Along => 3 * Width;

    /// <summary>Directions tried: a line between two of them loses at most 7 % of its depth.</summary>
    public const int Directions = 36;

    /// <summary>Reach of the averaging, standard deviations.</summary>
    private const double Reach = 2.5;

    /// <summary>The angle of a direction's normal, radians from the x axis, 0 to pi.</summary>
    public static double Angle(int direction) => Math.PI * direction / Directions;

    /// <summary>From the second derivative across the middle of a line to its depth, for a Gaussian profile of the same standard deviation as the smoothing.</summary>
    public double DepthPerCurvature => Math.Pow(2, 1.5) * Across * Across;

    /// <summary>Pixels along a line with their weights, linear between the two nearest to it, no closer than the smoothing needs; the weights sum to 1.</summary>
    public (int Dx, int Dy, float Weight)[] Steps(int direction)
    {
        var (alongY, alongX) = Math.SinCos(Angle(direction) + Math.PI / 2);
        var flat = Math.Abs(alongX) >= Math.Abs(alongY);
        var (unit, slope) = flat ? (Math.Abs(alongX), alongY / alongX) : (Math.Abs(alongY), alongX / alongY);
        var stride = Math.Max(1, (int)Math.Round(Across));
        var reach = stride * (int)(Reach * Along * unit / stride);
        var steps = new List<(int Dx, int Dy, double Weight)>();
        for (var k = -reach; k <= reach; k += stride)
        {
            var (weight, beside) = (Math.Exp(-0.5 * k * k / (Along * Along * unit * unit)), (int)Math.Floor(k * slope));
            var share = k * slope - beside;
            steps.Add(flat ? (k, beside, weight * (1 - share)) : (beside, k, weight * (1 - share)));
            if (share > 0) steps.Add(flat ? (k, beside + 1, weight * share) : (beside + 1, k, weight * share));
        }
        var sum = steps.Sum(s => s.Weight);
        return [.. steps.Select(s => (s.Dx, s.Dy, (float)(s.Weight / sum)))];
    }
}
