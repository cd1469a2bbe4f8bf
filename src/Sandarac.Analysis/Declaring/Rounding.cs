using System.Globalization;

namespace Sandarac.Analysis.Declaring;

/// <summary>Figures as people write them: no digit that the uncertainty does not bear. The one place that every page, document and table takes them from.</summary>
public static class Rounding
{
    /// <summary>A value rounded where its uncertainty begins (two places of the uncertainty; Guide to the Expression of Uncertainty in Measurement, 7.2.6),
    /// or to four significant figures without one.</summary>
    /// <returns>Both as text with a decimal point; the uncertainty is null when there is none.</returns>
    public static (string Value, string? Uncertainty) Rounded(double value, double? uncertainty)
    {
        if (uncertainty is not > 0) return (Significant(value, 4), null);
        var places = Math.Clamp(1 - (int)Math.Floor(Math.Log10(uncertainty.Value)), 0, 12);
        return (Fixed(value, places), Fixed(uncertainty.Value, places));
    }

    /// <summary>So many significant figures, without an exponent where people would not write one.</summary>
    public static string Significant(double value, int figures)
    {
        if (value == 0) return "0";
        var magnitude = (int)Math.Floor(Math.Log10(Math.Abs(value)));
        return magnitude is < -5 or > 9
            ? value.ToString($"0.{new string('#', figures - 1)}e+0", CultureInfo.InvariantCulture)
            : value.ToString($"0.{new string('#', Math.Max(0, figures - 1 - magnitude))}", CultureInfo.InvariantCulture);
    }

    private static string Fixed(double value, int places)
    {
        var text = value.ToString("F" + places.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
        // A negative value that rounds to nothing is nothing.
        return text.AsSpan().ContainsAnyInRange('1', '9') ? text : text.TrimStart('-');
    }
}
