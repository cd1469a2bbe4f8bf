using Sandarac.Analysis.Declaring;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Brushwork;

/// <summary>Writes the maps at the photographs' size: each pixel what its square of the working grid is.</summary>
internal static class BrushworkMaps
{
    private const int Rows = 256;

    public static void Write(RunContext context, InputImage image, int factor, DirectionField field, Plane sq, BodyThresholds thresholds, IReadOnlyList<BrushStroke> strokes)
    {
        WriteOne(context, image, factor, "direction", field.Angle.Select(a => float.IsNaN(a) ? a : (float)Axial.Degrees(a)));
        WriteOne(context, image, factor, "coherence", field.Coherence);
        WriteOne(context, image, factor, "relief", sq);
        WriteOne(context, image, factor, "body", sq.Select(v => thresholds.Of(v) is { } body ? (float)body : float.NaN));
        WriteOne(context, image, factor, "strokes", Numbered(strokes, sq.Width, sq.Height));
    }

    private static Plane Numbered(IReadOnlyList<BrushStroke> strokes, int width, int height)
    {
        var plane = new Plane(width, height);
        for (var k = 0; k < strokes.Count; k++)
            foreach (var i in strokes[k].Pixels) plane.Data[i] = k + 1;
        return plane;
    }

    private static void WriteOne(RunContext context, InputImage image, int factor, string name, Plane plane)
    {
        var (width, height) = (image.Image.Facts.Width, image.Image.Facts.Height);
        var raster = context.CreateRaster(name, width, height, image.Scale);
        for (var top = 0; top < height; top += Rows)
        {
            context.Cancellation.ThrowIfCancellationRequested();
            var window = new Plane(width, Math.Min(Rows, height - top));
            for (var y = 0; y < window.Height; y++)
            {
                var from = Math.Min((top + y) / factor, plane.Height - 1);
                for (var x = 0; x < width; x++) window[x, y] = plane[Math.Min(x / factor, plane.Width - 1), from];
            }
            raster.WriteWindow(0, top, [window]);
        }
    }
}
