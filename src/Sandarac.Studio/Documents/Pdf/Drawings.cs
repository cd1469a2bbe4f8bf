using Sandarac.Studio.Documents.Model;
using SkiaSharp;
using Svg.Skia;
using Svg.Skia.TypefaceProviders;

namespace Sandarac.Studio.Documents.Pdf;

/// <summary>Draws SVG, in the shipped fonts.</summary>
internal static class Drawings
{
    /// <summary>Draws it into a place, as lines and letters.</summary>
    public static void Draw(SKCanvas canvas, DrawingPicture drawing, SKRect place)
    {
        using var svg = Read(drawing);
        if (svg.Picture is not { } picture) return;
        var restore = canvas.Save();
        canvas.Translate(place.Left, place.Top);
        canvas.Scale(place.Width / picture.CullRect.Width, place.Height / picture.CullRect.Height);
        canvas.DrawPicture(picture);
        canvas.RestoreToCount(restore);
    }

    /// <summary>Its pixels as PNG, for formats that cannot hold a drawing.</summary>
    /// <param name="drawing">The drawing.</param>
    /// <param name="width">Pixels.</param>
    public static byte[] Png(DrawingPicture drawing, int width)
    {
        var factor = width / (float)drawing.Width;
        using var surface = SKSurface.Create(new SKImageInfo(width, Math.Max(1, (int)Math.Round(drawing.Height * factor)), SKColorType.Rgba8888, SKAlphaType.Premul));
        surface.Canvas.Clear(SKColors.White);
        Draw(surface.Canvas, drawing, new SKRect(0, 0, width, (float)drawing.Height * factor));
        using var image = surface.Snapshot();
        using var data = image.Encode(SKEncodedImageFormat.Png, 100);
        return data.ToArray();
    }

    private static SKSvg Read(DrawingPicture drawing)
    {
        var svg = new SKSvg();
        svg.Settings.TypefaceProviders = [new ShippedFonts()];
        svg.FromSvg(drawing.Svg());
        return svg;
    }

    /// <summary>Whatever family a drawing names, it gets ours: those of the machine may lack.</summary>
    private sealed class ShippedFonts : ITypefaceProvider
    {
        public SKTypeface? FromFamilyName(string fontFamily, SKFontStyleWeight fontWeight, SKFontStyleWidth fontWidth, SKFontStyleSlant fontStyle) => Face.Drawing(fontWeight >= SKFontStyleWeight.SemiBold);
    }
}
