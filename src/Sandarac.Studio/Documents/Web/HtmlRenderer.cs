using System.Text;
using Sandarac.Studio.Documents.Model;
using Sandarac.Studio.Documents.Phrasing;

namespace Sandarac.Studio.Documents.Web;

/// <summary>Writes a document as one HTML page that needs nothing beside it: its style and pictures are in it, it runs nothing and reaches nothing.</summary>
public sealed class HtmlRenderer
{
    private const int Small = 640, Large = 1400;

    private readonly Document _document;
    private readonly Phrases _phrases;
    private readonly Numbering _numbering;
    private readonly TextWriter _page;

    private HtmlRenderer(Document document, TextWriter page) => (_document, _phrases, _numbering, _page) = (document, document.Phrases, new Numbering(document), page);

    /// <summary>Writes a document.</summary>
    /// <param name="document">The document.</param>
    /// <param name="target">Where to; as UTF-8.</param>
    /// <param name="cancellation">Stops between two blocks.</param>
    public static void Write(Document document, Stream target, CancellationToken cancellation = default)
    {
        using var page = new StreamWriter(target, new UTF8Encoding(false), 1 << 16, leaveOpen: true) { NewLine = "\n" };
        new HtmlRenderer(document, page).Write(cancellation);
    }

    private void Write(CancellationToken cancellation)
    {
        Add($"<!doctype html><html lang=\"{_phrases.Language}\"><head><meta charset=\"utf-8\"><meta name=\"viewport\" content=\"width=device-width\"><title>{_document.Title}: {_document.Kind}</title>");
        Add($"<style>{new Markup(DocumentStyle.Css)}</style></head><body><p class=\"running\">{_document.Identity} - {_document.Kind}</p><main>");
        if (_document.Letterhead is { } letterhead) Add($"{Head(letterhead)}");
        Add($"<h1>{_document.Title}</h1><p class=\"lead\">{_document.Kind}, {_phrases.Date(_document.Made)}</p>");
        if (_document.Frontispiece is { } plate) Add($"<figure class=\"frontispiece\"><div class=\"plate\">{Image(plate, Large)}{Bar(plate)}</div>{Caption(plate)}</figure>");
        foreach (var block in _document.Opening) Add(block);
        Contents();
        foreach (var section in _numbering.Sections)
        {
            Add($"<h{section.Level + 1} id=\"{section.Anchor}\">{section.Heading}</h{section.Level + 1}>");
            foreach (var block in section.Section.Blocks)
            {
                cancellation.ThrowIfCancellationRequested();
                Add(block);
            }
        }
        var foot = _document.Footer.Length > 0 ? Html.Of($"<br>{_document.Footer}") : Markup.None;
        Add($"<footer>{_document.Closing}{foot}</footer></main></body></html>");
    }

    private void Add(FormattableString markup) => _page.WriteLine(Html.Of(markup).Text);

    private static Markup Head(Letterhead letterhead)
    {
        var logo = letterhead.Logo is { } picture && picture.Read(400, out var problem) is var bytes && problem is null ? Html.Of($"<img alt=\"\" src=\"{Data(bytes)}\">") : Markup.None;
        return Html.Of($"<header class=\"letterhead\"><div><strong>{letterhead.Name}</strong>{Html.Join(letterhead.Address.Select(a => Html.Of($"<br>{a}")))}</div>{logo}</header>");
    }

    private void Contents()
    {
        if (_numbering.Sections.Count < 2) return;
        Add($"<nav class=\"contents\" aria-label=\"{_phrases[Phrase.Contents]}\"><h2>{_phrases[Phrase.Contents]}</h2><ol>");
        foreach (var section in _numbering.Sections.Where(s => s.Level == 1))
        {
            var inner = _numbering.Sections.Where(s => s.Level == 2 && s.Number.StartsWith($"{section.Number}.", StringComparison.Ordinal)).Select(s => Html.Of($"<li>{Link(s)}</li>")).ToList();
            Add($"<li>{Link(section)}{(inner.Count > 0 ? Html.Of($"<ol>{Html.Join(inner)}</ol>") : Markup.None)}</li>");
        }
        Add($"</ol></nav>");
    }

    private static Markup Link(NumberedSection section) => Html.Of($"<a href=\"#{section.Anchor}\">{section.Heading}</a>");

    private void Add(Block block)
    {
        switch (block)
        {
            case Paragraph paragraph:
                Add($"<p{Class(paragraph.Look switch { ParagraphLook.Lead => "lead", ParagraphLook.Small => "small", _ => "" })}>{Text(paragraph.Text)}</p>");
                break;
            case BulletList list:
                Add($"<ul class=\"plain\">{Html.Join(list.Items.Select(i => Html.Of($"<li>{Text(i)}</li>")))}</ul>");
                break;
            case Facts facts:
                Add($"<dl class=\"facts\">{Html.Join(facts.Items.Select(f => Html.Of($"<dt>{f.Name}</dt><dd>{Text(f.Value)}</dd>")))}</dl>");
                break;
            case Table table:
                Add(table);
                break;
            case Plates plates:
                Add(plates);
                break;
            case Note note:
                var sign = note.Kind switch { NoteKind.Warning => _phrases[Phrase.WarningSign], NoteKind.Caution => _phrases[Phrase.CautionSign], _ => "" };
                Add($"<p class=\"{(note.Kind switch { NoteKind.Warning => "warning", NoteKind.Caution => "caution", _ => "note" })}\">{(sign.Length > 0 ? Html.Of($"<strong>{sign}</strong> ") : Markup.None)}{Text(note.Text)}</p>");
                break;
            case Legend legend:
                Add($"<ul class=\"legend\">{Html.Join(legend.Entries.Select(e => Html.Of($"<li><img alt=\"\" src=\"{Data(e.Swatch)}\"><span>{Text(e.Text)}</span></li>")))}</ul>");
                break;
            case Aside aside:
                Add($"<details><summary>{aside.Summary}</summary>");
                foreach (var inner in aside.Blocks) Add(inner);
                Add($"</details>");
                break;
            case Signatures signatures:
                foreach (var line in signatures.Lines)
                    Add($"<div class=\"sign\"><span class=\"role\">{line.Role}</span><span class=\"line\">{line.Name}</span><span class=\"line\">{line.At}</span><span class=\"small\">{_phrases[Phrase.NameAndSignature]}</span><span class=\"small\">{_phrases[Phrase.DateAndTime]}</span></div>");
                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(block), block, "No such block.");
        }
    }

    private void Add(Table table)
    {
        var padding = table.Columns.Select((c, i) => c.Kind == ColumnKind.Number ? new DecimalPadding([.. table.Rows.Select(r => r[i])], _phrases.Culture) : null).ToArray();
        var caption = table.Caption.Spans.Count > 0 ? Html.Of($"<caption><strong>{_phrases.Of(Phrase.TableNumber, _numbering.Of(table))}</strong> {Text(table.Caption)}</caption>") : Markup.None;
        // What scrolls must be reachable by keyboard, and says what it is.
        Add($"<div class=\"scroll\" tabindex=\"0\" role=\"region\" aria-label=\"{(table.Caption.Spans.Count > 0 ? table.Caption.Plain : string.Join(", ", table.Columns.Select(c => c.Title.Plain)))}\"><table>{caption}<thead><tr>{Html.Join(table.Columns.Select(c => Html.Of($"<th scope=\"col\"{Number(c)}>{Text(c.Title)}</th>")))}</tr></thead><tbody>");
        foreach (var row in table.Rows) Add($"<tr>{Html.Join(row.Select((c, i) => Html.Of($"<td{Number(table.Columns[i])}>{Text(padding[i]?.Pad(c) ?? c)}</td>")))}</tr>");
        Add($"</tbody></table></div>");
    }

    private void Add(Plates plates)
    {
        if (plates.Columns == 1)
            foreach (var plate in plates.Items) Add($"<figure class=\"wide{(plate.Picture is DrawingPicture ? " drawing" : "")}\">{Image(plate, Large)}{Bar(plate)}{Caption(plate)}</figure>");
        else
        {
            Add($"<div class=\"grid{(plates.Columns > 3 ? " tight" : "")}\">");
            foreach (var plate in plates.Items) Add($"<figure{(plate.Picture is DrawingPicture ? " class=\"drawing\"" : "")}>{Image(plate, Small)}{Bar(plate)}{Caption(plate)}</figure>");
            Add($"</div>");
        }
    }

    private Markup Image(Plate plate, int longest)
    {
        var factor = Math.Min(1, longest / Math.Max(plate.Picture.Width, plate.Picture.Height));
        var (width, height) = (Math.Max(1, (int)Math.Round(plate.Picture.Width * factor)), Math.Max(1, (int)Math.Round(plate.Picture.Height * factor)));
        if (plate.Picture is DrawingPicture drawing) return Html.Of($"<img width=\"{(int)drawing.Width}\" height=\"{(int)drawing.Height}\" alt=\"{plate.Alt}\" src=\"{Data(drawing)}\">");
        var bytes = ((RasterPicture)plate.Picture).Read(longest, out var problem);
        return problem is not null ? Html.Of($"<p class=\"note missing\">{_phrases.Of(Phrase.NoPicture, problem)}</p>") : Html.Of($"<img width=\"{width}\" height=\"{height}\" alt=\"{plate.Alt}\" src=\"{Data(bytes)}\">");
    }

    private Markup Bar(Plate plate) => plate.Scale is not { } scale ? Markup.None
        : Html.Of($"<svg class=\"bar\" role=\"img\" aria-label=\"{_phrases.Of(Phrase.ScaleBarOf, ScaleBar.Label(scale, _phrases))}\"><rect x=\"0\" y=\"0\" width=\"{100 * ScaleBar.Share(scale):0.###}%\" height=\"4\"/></svg><p class=\"barlabel\">{ScaleBar.Label(scale, _phrases)}</p>");

    private Markup Caption(Plate plate) => Html.Of($"<figcaption><strong>{_phrases.Of(Phrase.FigureNumber, _numbering.Of(plate))}</strong> {Text(plate.Caption)}{(plate.Licence.Length > 0 ? " " : "")}{plate.Licence}</figcaption>");

    private static Markup Text(Prose text) => Html.Join(text.Spans.Select(s => s.Look switch
    {
        SpanLook.Emphasis => Html.Of($"<em>{s.Text}</em>"),
        SpanLook.Strong => Html.Of($"<strong>{s.Text}</strong>"),
        SpanLook.Code => Html.Of($"<code>{s.Text}</code>"),
        SpanLook.Small => Html.Of($"<span class=\"pm\">{s.Text}</span>"),
        _ => Html.Of($"{s.Text}"),
    }));

    private static Markup Class(string name) => name.Length == 0 ? Markup.None : Html.Of($" class=\"{name}\"");

    private static Markup Number(Column column) => column.Kind == ColumnKind.Number ? Class("n") : Markup.None;

    private static Markup Data(byte[] bytes) => new($"data:{RasterPicture.TypeOf(bytes)};base64,{Convert.ToBase64String(bytes)}");

    /// <summary>As a picture a drawing can neither run anything nor share names with the page.</summary>
    private static Markup Data(DrawingPicture drawing) => new($"data:image/svg+xml;base64,{Convert.ToBase64String(Encoding.UTF8.GetBytes(drawing.Svg()))}");
}
