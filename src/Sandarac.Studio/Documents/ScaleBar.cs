using Sandarac.Studio.Documents.Model;
using Sandarac.Studio.Documents.Phrasing;

namespace Sandarac.Studio.Documents;

/// <summary>A bar of a round length below a picture, drawn as a share of its width, so that it stays true however large the picture is shown.</summary>
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

    /// <summary>Its length as a share of the picture's width.</summary>
    public static double Share(PictureScale scale) => LengthMm(scale.WidthMm) / scale.WidthMm;

    /// <summary>"50 mm", "100 um, by a ruler in a photograph".</summary>
    public static string Label(PictureScale scale, Phrases phrases)
    {
        var mm = LengthMm(scale.WidthMm);
        return (mm < 1 ? $"{(mm * 1000).ToString("0.###", phrases.Culture)} um" : $"{mm.ToString("0.###", phrases.Culture)} mm") + scale.Rests;
    }
}
