namespace Sandarac.Analysis.Teaching;

/// <summary>A share with the interval in which it lies with 95 %.</summary>
/// <param name="Value">The share.</param>
/// <param name="Lower">Lower end.</param>
/// <param name="Upper">Upper end.</param>
internal sealed record Share(double Value, double Lower, double Upper)
{
    private const double Z = 1.959963984540054;

    /// <summary>A mean of shares of so many independent cases: Wilson's interval (J. American Statistical Association 22 (1927) 209), exact for cases that are right or wrong as a whole and wider than needed for others.</summary>
    public static Share OfCases(double value, int cases)
    {
        var (z2, n) = (Z * Z, (double)cases);
        var (middle, half) = ((value + z2 / (2 * n)) / (1 + z2 / n), Z / (1 + z2 / n) * Math.Sqrt(value * (1 - value) / n + z2 / (4 * n * n)));
        return new Share(value, Math.Max(0, middle - half), Math.Min(1, middle + half));
    }

    /// <summary>The mean of independent shares: squares of the distances to their ends add (Newcombe, Statistics in Medicine 17 (1998) 873).</summary>
    public static Share MeanOf(IReadOnlyCollection<Share> shares)
    {
        var value = shares.Average(s => s.Value);
        double Half(Func<Share, double> to) => Math.Sqrt(shares.Sum(s => to(s) * to(s))) / shares.Count;
        return new Share(value, value - Half(s => s.Value - s.Lower), value + Half(s => s.Upper - s.Value));
    }

    /// <summary>The farther end's distance: a half-width that claims no more than the interval.</summary>
    public double Uncertainty => Math.Max(Value - Lower, Upper - Value);
}
