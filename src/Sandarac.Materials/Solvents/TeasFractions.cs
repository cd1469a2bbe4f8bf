using System.Globalization;
using Sandarac.Imaging;

namespace Sandarac.Materials.Solvents;

/// <summary>Teas' fractional parameters, percent: how large each of three kinds of force is, whatever the whole. J. P. Teas, Journal of Paint Technology 40 (1968).</summary>
/// <param name="Dispersion">fd.</param>
/// <param name="Polar">fp.</param>
/// <param name="Hydrogen">fh.</param>
public sealed record TeasFractions(double Dispersion, double Polar, double Hydrogen)
{
    /// <summary>Printed fractions are whole percents: their sum may miss 100 by this much.</summary>
    private const double SumTolerance = 1;

    /// <summary>Fractions that a person gave or a table prints.</summary>
    /// <exception cref="InputProblem">One is negative or no number, or they do not total 100 within 1.</exception>
    public static TeasFractions Of(double dispersion, double polar, double hydrogen)
    {
        var sum = dispersion + polar + hydrogen;
        if (double.IsFinite(sum) && Math.Min(dispersion, Math.Min(polar, hydrogen)) >= 0 && Math.Abs(sum - 100) <= SumTolerance) return new(dispersion, polar, hydrogen);
        throw new InputProblem("teas-sum", "Teas fractions", string.Create(CultureInfo.InvariantCulture, $"{dispersion:0.##}, {polar:0.##} and {hydrogen:0.##} total {sum:0.##}, not 100."), "Give three fractions of 0 or more that total 100 within 1, dispersion first.");
    }

    /// <summary>Distance on a triangle whose sides are 100 long, in percentage points.</summary>
    public double DistanceTo(TeasFractions other)
    {
        var (d, p, h) = (Dispersion - other.Dispersion, Polar - other.Polar, Hydrogen - other.Hydrogen);
        return Math.Sqrt((d * d + p * p + h * h) / 2);
    }

    /// <summary>Largest difference of a fraction, percentage points.</summary>
    public double LargestDifference(TeasFractions other) =>
        Math.Max(Math.Abs(Dispersion - other.Dispersion), Math.Max(Math.Abs(Polar - other.Polar), Math.Abs(Hydrogen - other.Hydrogen)));
}
