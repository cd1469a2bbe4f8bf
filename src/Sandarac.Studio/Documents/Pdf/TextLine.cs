using SkiaSharp;

namespace Sandarac.Studio.Documents.Pdf;

/// <summary>A line of text.</summary>
/// <param name="Runs">Its runs, each with the place where it begins, points.</param>
/// <param name="Width">Its width without the blank at its end, points.</param>
internal sealed record TextLine(IReadOnlyList<(GlyphRun Run, float X)> Runs, float Width)
{
    public static readonly TextLine Empty = new([], 0);

    /// <summary>Draws it.</summary>
    /// <param name="canvas">Where to.</param>
    /// <param name="x">Left end.</param>
    /// <param name="baseline">Height of the line that the letters stand on.</param>
    public void Draw(SKCanvas canvas, float x, float baseline)
    {
        foreach (var (run, from) in Runs)
        {
            if (run.Glyphs.Length == 0) continue;
            using var font = new SKFont(run.Face.Typeface, run.Look.Size) { Subpixel = true, LinearMetrics = true, Hinting = SKFontHinting.None };
            using var builder = new SKTextBlobBuilder();
            builder.AddHorizontalRun(run.Glyphs, font, run.Places, 0);
            using var blob = builder.Build();
            using var paint = new SKPaint { Color = run.Look.Colour, IsAntialias = true };
            canvas.DrawText(blob, x + from, baseline, paint);
        }
    }
}
