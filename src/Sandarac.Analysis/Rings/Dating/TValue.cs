using MathNet.Numerics.Distributions;

namespace Sandarac.Analysis.Rings.Dating;

/// <summary>Degrees of freedom of a correlation between transformed series of N pairs.</summary>
public enum TConvention
{
    /// <summary>N - 2, as Baillie and Pilcher (1973) print it.</summary>
    Pairs,

    /// <summary>N - 4 - 2: the running mean of five years costs four more. Stricter.</summary>
    LessFourYears,
}

/// <summary>Student's t of a correlation.</summary>
public static class TValue
{
    /// <summary>Degrees of freedom.</summary>
    /// <param name="pairs">N: years in which both series have a transformed value.</param>
    /// <param name="convention">N - 2 or N - 4 - 2.</param>
    public static int Freedom(int pairs, TConvention convention) => pairs - (convention == TConvention.Pairs ? 2 : 6);

    /// <summary>t = r sqrt(f / (1 - r^2)).</summary>
    public static double Of(double r, int pairs, TConvention convention) => r * Math.Sqrt(Freedom(pairs, convention)) / Math.Sqrt(1 - r * r);

    /// <summary>The correlation that gives a t.</summary>
    public static double Correlation(double t, int pairs, TConvention convention) => t / Math.Sqrt(t * t + Freedom(pairs, convention));

    /// <summary>Chance of such a t or a higher one between series that have nothing in common, at one position.</summary>
    public static double Chance(double t, int pairs, TConvention convention) => double.IsPositiveInfinity(t) ? 0 : StudentT.CDF(0, 1, Freedom(pairs, convention), -t);
}
