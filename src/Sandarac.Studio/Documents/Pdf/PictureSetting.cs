using Sandarac.Studio.Documents.Model;
using Sandarac.Studio.Documents.Phrasing;
using SkiaSharp;

namespace Sandarac.Studio.Documents.Pdf;

/// <summary>Sets pictures with scale bar and caption as one box, which no page break divides. The picture itself is read only when its page is written.</summary>
internal sealed class PictureSetting(LineBreaking breaking, Numbering numbering, Phrases phrases)
{
    private const float Gap = 18, BarHeight = 2.2f;

    /// <summary>Pictures side by side, a box for every row.</summary>
    /// <param name="plates">The pictures.</param>
    /// <param name="tallest">Height of the tallest, points; null for one that lets several rows stand on a page.</param>
    public IEnumerable<Box> Set(Plates plates, float? tallest = null)
    {
        var width = (Sheet.Measure - Gap * (plates.Columns - 1)) / plates.Columns;
        foreach (var row in plates.Items.Chunk(plates.Columns))
        {
            var set = row.Select(p => One(p, width, tallest ?? Tallest(p, plates.Columns))).ToList();
            var deepest = set.Max(s => s.Picture);
            yield return new Box(set.Max(s => deepest + s.Below), (canvas, x, y) =>
            {
                // Captions of a row begin on one height.
                for (var i = 0; i < set.Count; i++) set[i].Draw(canvas, x + i * (width + Gap), y + deepest - set[i].Picture);
            }) { Before = 12 };
        }
    }

    /// <summary>Drawings are read closely; photographs of a row leave room for two rows more.</summary>
    private static float Tallest(Plate plate, int columns) => Sheet.Depth * (columns > 1 ? 0.22f : plate.Picture is DrawingPicture ? 0.84f : 0.46f);

    private (float Picture, float Below, Action<SKCanvas, float, float> Draw) One(Plate plate, float width, float tallest)
    {
        var factor = Math.Min(width / plate.Picture.Width, tallest / plate.Picture.Height);
        if (plate.Picture is DrawingPicture) factor = Math.Min(factor, 0.75);
        var (shown, height) = ((float)(plate.Picture.Width * factor), (float)(plate.Picture.Height * factor));
        var bar = plate.Scale is { } scale ? (Length: (float)(shown * ScaleBar.Share(scale)), Label: breaking.Lines(ScaleBar.Label(scale, phrases), Sheet.Furniture, width)) : default;
        var barRoom = bar.Label is null ? 0 : BarHeight + 4 + bar.Label.Count * Sheet.Leading(Sheet.Furniture);
        var caption = breaking.Lines(Captioned(plate), Sheet.Caption, width);
        var leading = Sheet.Leading(Sheet.Caption);
        return (height, 5 + barRoom + caption.Count * leading + 4, (canvas, x, y) =>
        {
            Draw(canvas, plate, new SKRect(x, y, x + shown, y + height));
            var at = y + height + 5;
            if (bar.Label is not null)
            {
                Sheet.Fill(canvas, x, at, bar.Length, BarHeight, Sheet.Ink);
                for (var i = 0; i < bar.Label.Count; i++) bar.Label[i].Draw(canvas, x, at + BarHeight + 1 + i * Sheet.Leading(Sheet.Furniture) + Sheet.Ascent(Sheet.Furniture));
            }
            for (var i = 0; i < caption.Count; i++) caption[i].Draw(canvas, x, at + barRoom + i * leading + Sheet.Ascent(Sheet.Caption));
        });
    }

    private Prose Captioned(Plate plate) => Prose.Of($"{phrases.Of(Phrase.FigureNumber, numbering.Of(plate))} ", SpanLook.Strong) + plate.Caption + (plate.Licence.Length > 0 ? $" {plate.Licence}" : "");

    private void Draw(SKCanvas canvas, Plate plate, SKRect place)
    {
        if (plate.Picture is DrawingPicture drawing) Drawings.Draw(canvas, drawing, place);
        else if (Photograph(canvas, (RasterPicture)plate.Picture, place) is { } problem) Missing(canvas, problem, place);
    }

    /// <summary>Draws it; else says why not.</summary>
    private string? Photograph(SKCanvas canvas, RasterPicture picture, SKRect place)
    {
        var bytes = picture.Read(Math.Max(1, (int)(Math.Max(place.Width, place.Height) / 72 * Sheet.PixelsPerInch)), out var problem);
        if (problem is not null) return problem;
        // JPEG goes into the file as it is.
        using var data = SKData.CreateCopy(bytes);
        using var image = SKImage.FromEncodedData(data);
        if (image is null) return phrases[Phrase.PictureDamaged];
        canvas.DrawImage(image, place, new SKSamplingOptions(SKCubicResampler.Mitchell));
        return null;
    }

    private void Missing(SKCanvas canvas, string problem, SKRect place)
    {
        Sheet.Fill(canvas, place.Left, place.Top, place.Width, place.Height, Sheet.Shade);
        var lines = breaking.Lines(phrases.Of(Phrase.NoPicture, problem), Sheet.Caption, place.Width - 16);
        for (var i = 0; i < lines.Count && (i + 1) * Sheet.Leading(Sheet.Caption) < place.Height; i++) lines[i].Draw(canvas, place.Left + 8, place.Top + 6 + i * Sheet.Leading(Sheet.Caption) + Sheet.Ascent(Sheet.Caption));
    }
}
