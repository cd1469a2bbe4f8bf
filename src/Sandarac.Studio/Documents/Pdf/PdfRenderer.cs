using System.Globalization;
using Sandarac.Studio.Documents.Model;
using Sandarac.Studio.Documents.Phrasing;
using SkiaSharp;

namespace Sandarac.Studio.Documents.Pdf;

/// <summary>
/// Writes a document as PDF: A4, fonts embedded, an outline, links from the table of contents, flagged as PDF/A-2b (ISO 19005-2) but not validated as such. It bears no structure tags: for readers by ear the HTML is made.
/// Pages are set first, then drawn one by one, so that a picture is in memory only while its page is written.
/// </summary>
public sealed class PdfRenderer
{
    private static readonly Look Kind = new(Cut.Sans, 12.5f, Sheet.Grey), Title = new(Cut.SerifSemiBold, 25, Sheet.Ink), First = new(Cut.SerifSemiBold, 16, Sheet.Ink), Second = new(Cut.SerifSemiBold, 12.5f, Sheet.Ink), House = new(Cut.SansSemiBold, 10.5f, Sheet.Ink);

    private readonly Document _document;
    private readonly Phrases _phrases;
    private readonly Numbering _numbering;
    private readonly Shaper _shaper = new();
    private readonly LineBreaking _breaking;
    private readonly BlockSetting _blocks;
    private readonly PageFlow _flow = new();

    private PdfRenderer(Document document)
    {
        (_document, _phrases, _numbering, _breaking) = (document, document.Phrases, new Numbering(document), new LineBreaking(_shaper));
        _blocks = new BlockSetting(_breaking, _numbering, _phrases);
    }

    /// <summary>Writes a document.</summary>
    /// <param name="document">The document.</param>
    /// <param name="target">Where to; must be readable and seekable too.</param>
    /// <param name="cancellation">Stops between two pages.</param>
    public static void Write(Document document, Stream target, CancellationToken cancellation = default) => new PdfRenderer(document).Write(target, cancellation);

    private void Write(Stream target, CancellationToken cancellation)
    {
        _flow.Add(TitlePage());
        _flow.Add(Contents());
        _flow.Add(_numbering.Sections.SelectMany(Section));
        _flow.Add(Close());
        Draw(target, cancellation);
        PdfOutline.Append(target, [.. _numbering.Sections.Select(s => new OutlineEntry(Legible.Of(s.Heading), s.Level, s.Anchor))], _phrases.Language);
    }

    private IEnumerable<Box> TitlePage()
    {
        if (_document.Letterhead is { } letterhead) yield return Head(letterhead);
        foreach (var box in Box.Lines(_breaking.Lines(_document.Kind, Kind, Sheet.Measure), Kind, 26)) yield return box;
        foreach (var box in Box.Lines(_breaking.Lines(_document.Title, Title, Sheet.Measure), Title, 2)) yield return box;
        if (_document.Frontispiece is { } plate)
            foreach (var box in _blocks.Frontispiece(plate)) yield return box;
        foreach (var box in _document.Opening.SelectMany(_blocks.Set)) yield return box;
    }

    private Box Head(Letterhead letterhead)
    {
        var leading = Sheet.Leading(Sheet.Name);
        var (name, address) = (_breaking.Lines(letterhead.Name, House, 300), letterhead.Address.SelectMany(a => _breaking.Lines(a, Sheet.Name, 300)).ToList());
        var logo = letterhead.Logo is { } picture ? (Picture: picture, Factor: (float)Math.Min(150 / picture.Width, 52 / picture.Height)) : default;
        return new Box(Math.Max(56, name.Count * Sheet.Leading(House) + address.Count * leading), (canvas, x, y) =>
        {
            for (var i = 0; i < name.Count; i++) name[i].Draw(canvas, x, y + i * Sheet.Leading(House) + Sheet.Ascent(House));
            for (var i = 0; i < address.Count; i++) address[i].Draw(canvas, x, y + name.Count * Sheet.Leading(House) + i * leading + Sheet.Ascent(Sheet.Name));
            if (logo.Picture is null || logo.Picture.Read(600, out var problem) is var bytes && problem is not null) return;
            using var data = SKData.CreateCopy(bytes);
            using var image = SKImage.FromEncodedData(data);
            if (image is not null) canvas.DrawImage(image, SKRect.Create(x + Sheet.Measure - (float)logo.Picture.Width * logo.Factor, y, (float)logo.Picture.Width * logo.Factor, (float)logo.Picture.Height * logo.Factor), new SKSamplingOptions(SKCubicResampler.Mitchell));
        });
    }

    /// <summary>The page numbers are looked up when the page is drawn: by then every section has its page.</summary>
    private IEnumerable<Box> Contents()
    {
        foreach (var box in Box.Lines(_breaking.Lines(_phrases[Phrase.Contents], First, Sheet.Measure), First, 0)) yield return box with { BeginsPage = true, IsTiedToNext = true };
        foreach (var section in _numbering.Sections.Where(s => s.Level <= 2))
        {
            var (look, indent) = (section.Level == 1 ? Sheet.Body : Sheet.Note, section.Level == 1 ? 0 : 22f);
            var number = _breaking.Line(section.Number, look);
            var lines = _breaking.Lines(section.Section.Title, look, Sheet.Measure - indent - 70);
            var height = lines.Count * Sheet.Leading(look);
            yield return new Box(height, (canvas, x, y) =>
            {
                number.Draw(canvas, x + indent, y + Sheet.Ascent(look));
                for (var i = 0; i < lines.Count; i++) lines[i].Draw(canvas, x + indent + 30, y + i * Sheet.Leading(look) + Sheet.Ascent(look));
                var page = _breaking.Line(_flow.PageOf[section.Anchor].ToString(CultureInfo.InvariantCulture), look);
                page.Draw(canvas, x + Sheet.Measure - page.Width, y + height - Sheet.Leading(look) + Sheet.Ascent(look));
                using var link = canvas.DrawLinkDestinationAnnotation(SKRect.Create(x, y, Sheet.Measure, height), section.Anchor);
            }) { Before = section.Level == 1 ? 5 : 1 };
        }
    }

    private IEnumerable<Box> Section(NumberedSection section)
    {
        var look = section.Level == 1 ? First : Second;
        var heading = Box.Lines(_breaking.Lines(section.Heading, look, Sheet.Measure), look, section.Level == 1 ? 30 : 18).ToList();
        // At least a little of the section stands below its heading.
        heading.Add(new Box(2, (_, _, _) => { }));
        return heading.Select((b, i) => i > 0 ? b with { IsTiedToNext = true } : b with
        {
            IsTiedToNext = true, Anchor = section.Anchor,
            Draw = (canvas, x, y) =>
            {
                using var place = canvas.DrawNamedDestinationAnnotation(new SKPoint(0, Math.Max(0, y - 12)), section.Anchor);
                b.Draw(canvas, x, y);
            },
        }).Concat(section.Section.Blocks.SelectMany(_blocks.Set));
    }

    private IEnumerable<Box> Close()
    {
        IEnumerable<Box> boxes = _document.Closing.Length == 0 ? [] : _blocks.Set(new Paragraph(_document.Closing, ParagraphLook.Small)).Select((b, i) => i == 0 ? b with { Before = 24 } : b);
        foreach (var box in boxes) yield return box;
        // All text but the heads' and feet's, which repeat it, has been set: what the fonts lack is known.
        if (_shaper.Missing.Count == 0) yield break;
        var letters = string.Join(", ", _shaper.Missing.Take(40).Select(c => string.Create(CultureInfo.InvariantCulture, $"U+{c:X4}"))) + (_shaper.Missing.Count > 40 ? " ..." : "");
        foreach (var box in _blocks.Set(new Note(NoteKind.Warning, _phrases.Of(Phrase.LettersMissing, letters)))) yield return box;
    }

    private void Draw(Stream target, CancellationToken cancellation)
    {
        using var stream = new SKManagedWStream(target, disposeManagedStream: false);
        using var pdf = SKDocument.CreatePdf(stream, new SKDocumentPdfMetadata(Sheet.PixelsPerInch, 88)
        {
            Title = Legible.Of($"{_document.Title}: {_document.Kind}"), Author = Legible.Of(_document.Author), Subject = Legible.Of(_document.Identity), Creator = Words.Software(), Producer = Words.Software(),
            Creation = _document.Made, Modified = _document.Made, PdfA = true,
        });
        var (left, right) = (Fitted(_document.Identity, Sheet.Measure - 130), _breaking.Line(_document.Kind, Sheet.Furniture));
        var foot = Fitted(_document.Footer, Sheet.Measure - 110);
        for (var i = 0; i < _flow.Pages.Count; i++)
        {
            cancellation.ThrowIfCancellationRequested();
            var canvas = pdf.BeginPage(Sheet.Width, Sheet.Height);
            left.Draw(canvas, Sheet.Left, 46);
            right.Draw(canvas, Sheet.Width - Sheet.Right - right.Width, 46);
            Sheet.Line(canvas, Sheet.Left, 53, Sheet.Measure, 0.5f, Sheet.Rule);
            foreach (var (box, y) in _flow.Pages[i]) box.Draw(canvas, Sheet.Left, Sheet.Top + y);
            foot.Draw(canvas, Sheet.Left, Sheet.Height - 40);
            var page = _breaking.Line(_phrases.Of(Phrase.PageOf, i + 1, _flow.Pages.Count), Sheet.Furniture);
            page.Draw(canvas, Sheet.Width - Sheet.Right - page.Width, Sheet.Height - 40);
            pdf.EndPage();
        }
        pdf.Close();
        stream.Flush();
    }

    /// <summary>One line, cut with three points when it is too long: the first page has the whole.</summary>
    private TextLine Fitted(string text, float width)
    {
        var line = _breaking.Line(text.ReplaceLineEndings(" "), Sheet.Furniture);
        while (line.Width > width && text.Length > 1)
        {
            text = text[..Math.Max(1, (int)(text.Length * Math.Min(0.97, width / line.Width)) - 1)].TrimEnd();
            line = _breaking.Line(text.ReplaceLineEndings(" ") + " ...", Sheet.Furniture);
        }
        return line;
    }
}
