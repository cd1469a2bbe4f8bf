using Sandarac.Imaging;

namespace Sandarac.Analysis.FalseColour;

/// <summary>The arithmetic of infrared false colour, pixel by pixel.</summary>
internal static class FalseColourBands
{
    /// <summary>Infrared, red, green of a window: the bands that red, green and blue will show. NaN in all three where any has no data.</summary>
    /// <param name="infrared">One band, or several of which the mean is taken (a converted colour camera).</param>
    /// <param name="visible">Red, green, and any more.</param>
    public static Plane[] Shift(Plane[] infrared, Plane[] visible)
    {
        var (width, height) = (visible[0].Width, visible[0].Height);
        Plane[] shifted = [new(width, height), new(width, height), new(width, height)];
        for (var i = 0; i < width * height; i++)
        {
            double sum = 0;
            foreach (var band in infrared) sum += band.Data[i];
            var (ir, red, green) = ((float)(sum / infrared.Length), visible[0].Data[i], visible[1].Data[i]);
            var valid = float.IsFinite(ir) && float.IsFinite(red) && float.IsFinite(green);
            (shifted[0].Data[i], shifted[1].Data[i], shifted[2].Data[i]) = valid ? (ir, red, green) : (float.NaN, float.NaN, float.NaN);
        }
        return shifted;
    }

    /// <summary>Each band divided by its white; values above 1 stay above 1.</summary>
    public static Plane[] Relative(Plane[] bands, double[] whites) => [.. bands.Select((plane, b) => plane.Select(v => (float)(v / whites[b])))];
}
