using SkiaSharp;

namespace Sandarac.Studio.Documents.Pdf;

/// <summary>The sheet and what is printed on it: A4 (ISO 216), lengths in points of 1/72 inch.</summary>
internal static class Sheet
{
    public const float Width = 595.28f, Height = 841.89f, Left = 68, Right = 68, Top = 82, Bottom = 76;

    /// <summary>Width of the text.</summary>
    public const float Measure = Width - Left - Right;

    /// <summary>Height of the text.</summary>
    public const float Depth = Height - Top - Bottom;

    /// <summary>Pictures are made for so many pixels an inch.</summary>
    public const float PixelsPerInch = 200;

    /// <summary>Neutral greys: a* and b* are 0, so that no colour beside a picture pulls the eye.</summary>
    public static readonly SKColor Ink = new(0x1C, 0x1C, 0x1C), Grey = new(0x55, 0x55, 0x55), Rule = new(0x8A, 0x8A, 0x8A), Hair = new(0xD6, 0xD6, 0xD6), Shade = new(0xF1, 0xF1, 0xF1);

    public static readonly Look Body = new(Cut.Serif, 10.3f, Ink), Lead = new(Cut.Serif, 12f, Grey), Small = new(Cut.Serif, 8.8f, Grey), Cell = new(Cut.Sans, 8.6f, Ink), Head = new(Cut.SansSemiBold, 8.6f, Ink),
        Caption = new(Cut.Sans, 8.8f, Ink), Note = new(Cut.Serif, 9.8f, Ink), Name = new(Cut.Sans, 9.2f, Grey), Furniture = new(Cut.Sans, 8f, Grey);

    /// <summary>From line to line.</summary>
    public static float Leading(Look look) => MathF.Round(look.Size * 1.36f * 4) / 4;

    /// <summary>From the top of a line to the line that its letters stand on.</summary>
    public static float Ascent(Look look) => Leading(look) * 0.5f + look.Size * 0.33f;

    public static void Line(SKCanvas canvas, float x, float y, float width, float weight, SKColor colour)
    {
        using var paint = new SKPaint { Color = colour, StrokeWidth = weight, Style = SKPaintStyle.Stroke };
        canvas.DrawLine(x, y, x + width, y, paint);
    }

    public static void Fill(SKCanvas canvas, float x, float y, float width, float height, SKColor colour)
    {
        using var paint = new SKPaint { Color = colour };
        canvas.DrawRect(x, y, width, height, paint);
    }
}
