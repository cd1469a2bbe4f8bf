using DocumentFormat.OpenXml;
using DocumentFormat.OpenXml.Packaging;
using DocumentFormat.OpenXml.Wordprocessing;
using Sandarac.Studio.Documents.Model;
using Sandarac.Studio.Documents.Phrasing;
using Block = Sandarac.Studio.Documents.Model.Block;
using Document = Sandarac.Studio.Documents.Model.Document;
using Numbering = Sandarac.Studio.Documents.Model.Numbering;
using Paragraph = Sandarac.Studio.Documents.Model.Paragraph;
using Table = Sandarac.Studio.Documents.Model.Table;
using Word = DocumentFormat.OpenXml.Wordprocessing;

namespace Sandarac.Studio.Documents.Docx;

/// <summary>Writes a document as DOCX (ECMA-376) that a word processor can edit: real headings with their numbers, captions and pages as fields, tables with repeated heads, pictures with alternative texts.</summary>
public sealed class DocxRenderer
{
    private readonly Document _document;
    private readonly Phrases _phrases;
    private readonly Numbering _numbering;
    private readonly DocxPictures _pictures;
    private readonly Body _body = new();
    private int _bookmarks;

    private DocxRenderer(Document document, MainDocumentPart part)
    {
        (_document, _phrases, _numbering) = (document, document.Phrases, new Numbering(document));
        _pictures = new DocxPictures(part, _phrases, _numbering);
    }

    /// <summary>Writes a document.</summary>
    /// <param name="document">The document.</param>
    /// <param name="target">Where to; must be readable and seekable too.</param>
    /// <param name="cancellation">Stops between two blocks.</param>
    public static void Write(Document document, Stream target, CancellationToken cancellation = default)
    {
        using var package = WordprocessingDocument.Create(target, WordprocessingDocumentType.Document);
        var part = package.AddMainDocumentPart();
        part.AddNewPart<StyleDefinitionsPart>().Styles = DocxStyles.Styles(document.Phrases);
        part.AddNewPart<NumberingDefinitionsPart>().Numbering = DocxStyles.Lists();
        (package.PackageProperties.Title, package.PackageProperties.Creator, package.PackageProperties.Created) = (Legible.Of($"{document.Title}: {document.Kind}"), Legible.Of(document.Author), document.Made);
        package.PackageProperties.Language = document.Phrases.Language;
        var renderer = new DocxRenderer(document, part);
        renderer.Fill(cancellation);
        renderer._body.Append(renderer.Page(part));
        part.Document = new Word.Document(renderer._body);
    }

    private void Fill(CancellationToken cancellation)
    {
        if (_document.Letterhead is { } letterhead)
        {
            if (letterhead.Logo is { } logo && _pictures.Logo(logo) is { } run) _body.Append(DocxText.Paragraph("Letterhead", [run]));
            _body.Append(DocxText.Paragraph("Letterhead", Prose.Of(letterhead.Name, SpanLook.Strong)));
            foreach (var line in letterhead.Address) _body.Append(DocxText.Paragraph("Letterhead", line));
        }
        _body.Append(DocxText.Paragraph("Subtitle", _document.Kind), DocxText.Paragraph("Title", _document.Title));
        if (_document.Frontispiece is { } plate) Add(new Plates([plate]));
        foreach (var block in _document.Opening) Add(block);
        Contents();
        foreach (var section in _numbering.Sections)
        {
            Heading(section);
            foreach (var block in section.Section.Blocks)
            {
                cancellation.ThrowIfCancellationRequested();
                Add(block);
            }
        }
        if (_document.Closing.Length > 0) _body.Append(DocxText.Paragraph("Small", _document.Closing));
    }

    /// <summary>A field that the word processor fills with pages; until then it lists the headings.</summary>
    private void Contents()
    {
        if (_numbering.Sections.Count == 0) return;
        var head = DocxText.Paragraph("ContentsHeading", _phrases[Phrase.Contents]);
        head.ParagraphProperties!.PageBreakBefore = new PageBreakBefore();
        _body.Append(head);
        var listed = _numbering.Sections.Where(s => s.Level <= 2).ToList();
        for (var i = 0; i < listed.Count; i++)
        {
            var entry = DocxText.Paragraph($"TOC{listed[i].Level}");
            if (i == 0) entry.Append(DocxText.FieldBegin(" TOC \\o \"1-2\" \\h \\z \\u ", isDirty: true));
            entry.Append(new Hyperlink(DocxText.Runs(listed[i].Heading)) { Anchor = listed[i].Anchor });
            if (i == listed.Count - 1) entry.Append(DocxText.FieldEnd());
            _body.Append(entry);
        }
    }

    private void Heading(NumberedSection section)
    {
        var id = (++_bookmarks).ToString(System.Globalization.CultureInfo.InvariantCulture);
        var heading = DocxText.Paragraph($"Heading{Math.Min(section.Level, 3)}");
        heading.Append(new BookmarkStart { Id = id, Name = section.Anchor });
        heading.Append(DocxText.Runs(section.Section.Title));
        heading.Append(new BookmarkEnd { Id = id });
        _body.Append(heading);
    }

    private void Add(Block block)
    {
        switch (block)
        {
            case Paragraph paragraph:
                _body.Append(DocxText.Paragraph(paragraph.Look switch { ParagraphLook.Lead => "Lead", ParagraphLook.Small => "Small", _ => "Normal" }, paragraph.Text));
                break;
            case BulletList list:
                foreach (var item in list.Items) _body.Append(DocxText.Paragraph("ListBullet", item));
                break;
            case Facts facts:
                _body.Append(DocxTables.Of(facts), DocxText.Paragraph("Gap"));
                break;
            case Table table:
                if (table.Caption.Spans.Count > 0) _body.Append(DocxText.Caption(_phrases[Phrase.TableNumber], "Table", _numbering.Of(table), table.Caption, isAbove: true));
                _body.Append(DocxTables.Of(table, _phrases.Culture), DocxText.Paragraph("Gap"));
                break;
            case Plates plates:
                foreach (var element in _pictures.Of(plates)) _body.Append(element);
                break;
            case Note note:
                var (style, sign) = note.Kind switch { NoteKind.Warning => ("Warning", _phrases[Phrase.WarningSign]), NoteKind.Caution => ("Caution", _phrases[Phrase.CautionSign]), _ => ("Remark", "") };
                _body.Append(DocxText.Paragraph(style, sign.Length == 0 ? note.Text : Prose.Of($"{sign} ", SpanLook.Strong) + note.Text));
                break;
            case Legend legend:
                _body.Append(_pictures.Of(legend), DocxText.Paragraph("Gap"));
                break;
            case Aside aside:
                _body.Append(DocxText.Paragraph("Aside", aside.Summary));
                foreach (var inner in aside.Blocks) Add(inner);
                break;
            case Signatures signatures:
                _body.Append(DocxTables.Of(signatures, _phrases), DocxText.Paragraph("Gap"));
                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(block), block, "No such block.");
        }
    }

    /// <summary>A4 with the painting's identity at the head and the page's number at the foot.</summary>
    private SectionProperties Page(MainDocumentPart part)
    {
        var (head, foot) = (part.AddNewPart<HeaderPart>(), part.AddNewPart<FooterPart>());
        head.Header = new Header(DocxText.Paragraph("Header", [.. DocxText.Runs(_document.Identity), new Run(new TabChar()), .. DocxText.Runs(_document.Kind)]));
        // "Page {0} of {1}": the two figures are fields.
        var parts = _phrases[Phrase.PageOf].Split("{0}", 2) is [var before, var rest] && rest.Split("{1}", 2) is [var between, var after] ? (before, between, after) : throw new InvalidOperationException("The phrase for pages lacks a figure.");
        foot.Footer = new Footer(DocxText.Paragraph("Footer", [.. DocxText.Runs(_document.Footer), new Run(new TabChar()), .. DocxText.Runs(parts.before), .. DocxText.Field(" PAGE ", "1"), .. DocxText.Runs(parts.between), .. DocxText.Field(" NUMPAGES ", "1"), .. DocxText.Runs(parts.after)]));
        return new SectionProperties(
            new HeaderReference { Type = HeaderFooterValues.Default, Id = part.GetIdOfPart(head) }, new FooterReference { Type = HeaderFooterValues.Default, Id = part.GetIdOfPart(foot) },
            new PageSize { Width = 11906, Height = 16838 }, new PageMargin { Top = 1640, Bottom = 1520, Left = DocxStyles.Margin, Right = DocxStyles.Margin, Header = 760, Footer = 700, Gutter = 0 });
    }
}
