using DocumentFormat.OpenXml;
using DocumentFormat.OpenXml.Drawing.Wordprocessing;
using DocumentFormat.OpenXml.Packaging;
using DocumentFormat.OpenXml.Wordprocessing;
using Sandarac.Studio.Documents.Model;
using Sandarac.Studio.Documents.Pdf;
using Sandarac.Studio.Documents.Phrasing;
using SkiaSharp;
using Paragraph = DocumentFormat.OpenXml.Wordprocessing.Paragraph;
using Table = DocumentFormat.OpenXml.Wordprocessing.Table;
using Numbering = Sandarac.Studio.Documents.Model.Numbering;
using A = DocumentFormat.OpenXml.Drawing;
using Pic = DocumentFormat.OpenXml.Drawing.Pictures;

namespace Sandarac.Studio.Documents.Docx;

/// <summary>Puts pictures with their scale bars and captions into the package. The bar is part of the picture, so that it stays true when a person makes the picture larger or smaller.</summary>
internal sealed class DocxPictures(MainDocumentPart part, Phrases phrases, Numbering numbering)
{
    private const int PixelsPerInch = 180, EmuPerTwip = 635, Gap = 160, Tallest = 8200;

    private uint _count;

    /// <summary>Pictures with captions: below one another, or as a table without lines.</summary>
    public IEnumerable<OpenXmlElement> Of(Plates plates)
    {
        if (plates.Columns == 1) return plates.Items.SelectMany(p => One(p, DocxStyles.Measure));
        var width = DocxStyles.Measure / plates.Columns;
        var grid = DocxTables.New([.. Enumerable.Repeat(width, plates.Columns)], isRuled: false);
        foreach (var row in plates.Items.Chunk(plates.Columns))
            grid.Append(DocxTables.Row(Enumerable.Range(0, plates.Columns).Select(i => DocxTables.Cell(width, i < row.Length ? One(row[i], width - Gap) : [DocxText.Paragraph("TableText")]))));
        return [grid, DocxText.Paragraph("Gap")];
    }

    /// <summary>The key of a drawing.</summary>
    public Table Of(Legend legend)
    {
        int[] widths = [1000, DocxStyles.Measure - 1000];
        var grid = DocxTables.New(widths, isRuled: false);
        foreach (var entry in legend.Entries)
            grid.Append(DocxTables.Row([DocxTables.Cell(widths[0], DocxText.Paragraph("TableText", [Inline(Drawings.Png(entry.Swatch, 160), 640, 640 * entry.Swatch.Height / entry.Swatch.Width, "")])), DocxTables.Cell(widths[1], DocxText.Paragraph("TableText", entry.Text))]));
        return grid;
    }

    /// <summary>A house's sign; null when it cannot be read.</summary>
    public Run? Logo(RasterPicture logo)
    {
        var bytes = logo.Read(600, out var problem);
        var factor = Math.Min(3000 / logo.Width, 1040.0 / logo.Height);
        return problem is null ? Inline(bytes, logo.Width * factor, logo.Height * factor, "") : null;
    }

    private IEnumerable<Paragraph> One(Plate plate, int width)
    {
        var factor = Math.Min(width / plate.Picture.Width, Tallest / plate.Picture.Height);
        if (plate.Picture is DrawingPicture) factor = Math.Min(factor, 15);
        var (wide, high) = (plate.Picture.Width * factor, plate.Picture.Height * factor);
        var caption = DocxText.Caption(phrases[Phrase.FigureNumber], "Figure", numbering.Of(plate), plate.Licence.Length > 0 ? plate.Caption + $" {plate.Licence}" : plate.Caption, isAbove: false);
        var (bytes, pixels) = Bytes(plate, wide, out var problem);
        return problem is null ? [DocxText.Paragraph("Picture", [Inline(bytes, wide, plate.Scale is null ? high : wide * pixels.Height / pixels.Width, plate.Alt)]), caption] : [DocxText.Paragraph("Remark", phrases.Of(Phrase.NoPicture, problem)), caption];
    }

    private (byte[] Bytes, SKSizeI Pixels) Bytes(Plate plate, double wide, out string? problem)
    {
        var pixels = Math.Max(1, (int)(wide / 1440 * PixelsPerInch));
        problem = null;
        if (plate.Picture is DrawingPicture drawing) return (Drawings.Png(drawing, 2 * pixels), default);
        var raster = (RasterPicture)plate.Picture;
        var bytes = raster.Read((int)(pixels * Math.Max(1, raster.Height / (double)raster.Width)), out problem);
        if (problem is not null) return default;
        using var image = SKImage.FromEncodedData(bytes);
        if (image is null)
        {
            problem = phrases[Phrase.PictureDamaged];
            return default;
        }
        return plate.Scale is { } scale ? WithBar(image, scale, (float)(wide / 20)) : (bytes, new SKSizeI(image.Width, image.Height));
    }

    /// <summary>The picture with its bar on a white strip below it.</summary>
    private (byte[] Bytes, SKSizeI Pixels) WithBar(SKImage image, PictureScale scale, float points)
    {
        var unit = image.Width / points;
        var shaper = new LineBreaking(new Shaper());
        var lines = shaper.Lines(ScaleBar.Label(scale, phrases), Sheet.Furniture with { Size = 8 * unit }, image.Width);
        var strip = (int)(unit * (9 + 11 * lines.Count));
        using var surface = SKSurface.Create(new SKImageInfo(image.Width, image.Height + strip, SKColorType.Rgba8888, SKAlphaType.Opaque));
        surface.Canvas.Clear(SKColors.White);
        surface.Canvas.DrawImage(image, 0, 0, SKSamplingOptions.Default);
        Sheet.Fill(surface.Canvas, 0, image.Height + 5 * unit, (float)(image.Width * ScaleBar.Share(scale)), 2.2f * unit, Sheet.Ink);
        for (var i = 0; i < lines.Count; i++) lines[i].Draw(surface.Canvas, 0, image.Height + unit * (17 + 11 * i));
        using var shown = surface.Snapshot();
        using var data = shown.Encode(SKEncodedImageFormat.Jpeg, 90);
        return (data.ToArray(), new SKSizeI(image.Width, image.Height + strip));
    }

    /// <summary>A picture in the line of text.</summary>
    /// <param name="bytes">JPEG or PNG.</param>
    /// <param name="wide">Twentieths of a point.</param>
    /// <param name="high">Twentieths of a point.</param>
    /// <param name="alt">What it shows; empty for an ornament.</param>
    private Run Inline(byte[] bytes, double wide, double high, string alt)
    {
        var image = part.AddImagePart(RasterPicture.TypeOf(bytes) == "image/png" ? ImagePartType.Png : ImagePartType.Jpeg);
        using (var stream = new MemoryStream(bytes)) image.FeedData(stream);
        var (id, cx, cy) = (++_count, Math.Max(1, (long)(wide * EmuPerTwip)), Math.Max(1, (long)(high * EmuPerTwip)));
        var name = $"Picture {id}";
        var picture = new Pic.Picture(
            new Pic.NonVisualPictureProperties(new Pic.NonVisualDrawingProperties { Id = id, Name = name, Description = Legible.Of(alt) }, new Pic.NonVisualPictureDrawingProperties()),
            new Pic.BlipFill(new A.Blip { Embed = part.GetIdOfPart(image) }, new A.Stretch(new A.FillRectangle())),
            new Pic.ShapeProperties(new A.Transform2D(new A.Offset { X = 0, Y = 0 }, new A.Extents { Cx = cx, Cy = cy }), new A.PresetGeometry(new A.AdjustValueList()) { Preset = A.ShapeTypeValues.Rectangle }));
        return new Run(new Drawing(new Inline(new Extent { Cx = cx, Cy = cy }, new DocProperties { Id = id, Name = name, Description = Legible.Of(alt) },
            new A.Graphic(new A.GraphicData(picture) { Uri = "http://schemas.openxmlformats.org/drawingml/2006/picture" })) { DistanceFromTop = 0, DistanceFromBottom = 0, DistanceFromLeft = 0, DistanceFromRight = 0 }));
    }
}
