namespace Sandarac.Analysis.Brushwork;

/// <summary>
/// How a value rises or falls along a pull: the least-squares line, with an interval widened because neighbouring places are alike. The effective number of places is
/// n (1 - r) / (1 + r) with r the residuals' correlation from one place to the next (Bartlett, J. Royal Statistical Society 98 (1935) 536, from memory).
/// </summary>
/// <param name="PerMm">Change per mm.</param>
/// <param name="Uncertainty">Half-width of its interval of about 95 %; positive infinity when too few places are independent.</param>
/// <param name="Start">Value of the line at the start.</param>
/// <param name="EffectiveCount">Places that count as independent.</param>
internal sealed record PullTrend(double PerMm, double Uncertainty, double Start, double EffectiveCount)
{
    /// <summary>The 97.5 % point of the normal distribution: with fewer than <see cref="FewestIndependent"/> places nothing is said.</summary>
    private const double Normal95 = 1.959964, FewestIndependent = 5;

    /// <summary>Whether it rises or falls beyond doubt (95 %).</summary>
    public bool IsCertain => Math.Abs(PerMm) > Uncertainty;

    /// <summary>The trend of a pull; null when it says nothing.</summary>
    public static PullTrend? Of(Pull pull)
    {
        if (!pull.SaysAnything) return null;
        (double S, double V)[] places = [.. pull.Values.Select((v, k) => (k * pull.StepMm, v)).Where(p => double.IsFinite(p.v))];
        var (s, v) = (places.Average(p => p.S), places.Average(p => p.V));
        var across = places.Sum(p => (p.S - s) * (p.S - s));
        var slope = places.Sum(p => (p.S - s) * (p.V - v)) / across;
        double[] rest = [.. places.Select(p => p.V - v - slope * (p.S - s))];
        var squares = rest.Sum(r => r * r);
        var alike = squares > 0 ? Math.Clamp(rest.Zip(rest.Skip(1), (a, b) => a * b).Sum() / squares, 0, 1) : 0;
        var independent = rest.Length * (1 - alike) / (1 + alike);
        var error = Math.Sqrt(squares / (rest.Length - 2) / across) * Math.Sqrt(rest.Length / independent);
        return new PullTrend(slope, independent < FewestIndependent ? double.PositiveInfinity : Normal95 * error, v - slope * s, independent);
    }
}
