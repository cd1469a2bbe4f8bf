using System.Globalization;

namespace Sandarac.Studio.Documents;

/// <summary>A bar of a round length, drawn over a picture as a share of its width, so that it stays true however large the picture is shown.</summary>
internal static class ScaleBar
{
    /// <summary>The longest of 1, 2, 5 times a power of ten that takes at most a third of the width.</summary>
    /// <param name="widthMm">Width of the picture on the object, mm, greater than 0.</param>
    public static double LengthMm(double widthMm)
    {
        var limit = widthMm / 3;
        var decade = Math.Pow(10, Math.Floor(Math.Log10(limit)));
        return (limit / decade) switch { >= 5 => 5, >= 2 => 2, _ => 1 } * decade;
    }

    /// <summary>"50 mm", "100 um".</summary>
    public static string Label(double mm) => mm < 1
        ? string.Create(CultureInfo.InvariantCulture, $"{mm * 1000:0.###} um") : string.Create(CultureInfo.InvariantCulture, $"{mm:0.###} mm");

    /// <summary>The bar as a drawing for below a picture.</summary>
    /// <param name="widthMm">Width of the picture on the object, mm.</param>
    /// <param name="rests">What the length rests on, after the figure; empty when it was measured.</param>
    public static Markup Svg(double widthMm, string rests)
    {
        var bar = LengthMm(widthMm);
        return Html.Of($"""
            <svg class="bar" role="img" aria-label="scale bar, {Label(bar)}"><rect x="0" y="0" width="{100 * bar / widthMm:0.###}%" height="4"/></svg><p class="barlabel">{Label(bar)}{rests}</p>
            """);
    }
}
