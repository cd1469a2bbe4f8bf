using System.Globalization;
using Sandarac.Imaging;

namespace Sandarac.Materials;

/// <summary>Checks of figures that a person gave.</summary>
internal static class Given
{
    /// <summary>A number above 0.</summary>
    /// <exception cref="InputProblem">It is not.</exception>
    public static double Positive(double value, string subject, string unit) => value > 0 && double.IsFinite(value) ? value : throw Problem(value, subject, $"Give a number above 0, in {unit}.");

    /// <summary>A number of 0 or more.</summary>
    /// <exception cref="InputProblem">It is not.</exception>
    public static double NotNegative(double value, string subject, string unit) => value >= 0 && double.IsFinite(value) ? value : throw Problem(value, subject, $"Give 0 or more, in {unit}.");

    /// <summary>A number within bounds, both included.</summary>
    /// <exception cref="InputProblem">It is not.</exception>
    public static double Within(double value, double least, double most, string subject, string unit) =>
        value >= least && value <= most ? value : throw Problem(value, subject, string.Create(CultureInfo.InvariantCulture, $"Give a number from {least:0.###} to {most:0.###}, in {unit}."));

    private static InputProblem Problem(double value, string subject, string remedy) =>
        new("number-out-of-range", subject, string.Create(CultureInfo.InvariantCulture, $"{subject} cannot be {value:0.######}."), remedy);
}
