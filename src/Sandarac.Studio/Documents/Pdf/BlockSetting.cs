using Sandarac.Studio.Documents.Model;
using Sandarac.Studio.Documents.Phrasing;
using SkiaSharp;

namespace Sandarac.Studio.Documents.Pdf;

/// <summary>Turns the blocks of a document into boxes.</summary>
internal sealed class BlockSetting(LineBreaking breaking, Numbering numbering, Phrases phrases)
{
    private const float NameWidth = 128, Indent = 14, NoteInset = 12;

    private readonly PictureSetting _pictures = new(breaking, numbering, phrases);
    private readonly TableSetting _tables = new(breaking, phrases.Culture);

    /// <summary>The boxes of a block.</summary>
    public IEnumerable<Box> Set(Block block) => block switch
    {
        Paragraph paragraph => Text(paragraph),
        BulletList list => list.Items.SelectMany(Bullet),
        Facts facts => facts.Items.SelectMany((f, i) => Fact(f, i == 0)),
        Table table => Table(table),
        Plates plates => _pictures.Set(plates),
        Note note => Note(note),
        Legend legend => legend.Entries.Select(Entry),
        Aside aside => Box.Lines(breaking.Lines(aside.Summary, Sheet.Name with { Cut = Cut.SansSemiBold }, Sheet.Measure), Sheet.Name, 10).Select(b => b with { IsTiedToNext = true }).Concat(aside.Blocks.SelectMany(Set)),
        Signatures signatures => signatures.Lines.Select(Signature),
        _ => throw new ArgumentOutOfRangeException(nameof(block), block, "No such block."),
    };

    /// <summary>A picture on the first page, which leaves room for the facts below it.</summary>
    public IEnumerable<Box> Frontispiece(Plate plate) => _pictures.Set(new Plates([plate]), Sheet.Depth * 0.33f);

    private IEnumerable<Box> Text(Paragraph paragraph)
    {
        var look = paragraph.Look switch { ParagraphLook.Lead => Sheet.Lead, ParagraphLook.Small => Sheet.Small, _ => Sheet.Body };
        return Box.Lines(breaking.Lines(paragraph.Text, look, Sheet.Measure), look, 6);
    }

    private IEnumerable<Box> Bullet(Prose item)
    {
        var bullet = breaking.Line("\u2022", Sheet.Body);
        return Box.Lines(breaking.Lines(item, Sheet.Body, Sheet.Measure - Indent), Sheet.Body, 3, Indent).Select((b, i) => i > 0 ? b : b with { Draw = (c, x, y) => { bullet.Draw(c, x + 3, y + Sheet.Ascent(Sheet.Body)); b.Draw(c, x, y); } });
    }

    private IEnumerable<Box> Fact(Fact fact, bool isFirst)
    {
        var names = breaking.Lines(fact.Name, Sheet.Name, NameWidth - 8);
        var lines = breaking.Lines(fact.Value, Sheet.Body, Sheet.Measure - NameWidth);
        while (lines.Count < names.Count) lines = [.. lines, TextLine.Empty];
        return Box.Lines(lines, Sheet.Body, isFirst ? 10 : 2.5f, NameWidth).Select((b, i) => i >= names.Count ? b : b with { Draw = (c, x, y) => { names[i].Draw(c, x, y + Sheet.Ascent(Sheet.Body)); b.Draw(c, x, y); } });
    }

    private IEnumerable<Box> Table(Table table)
    {
        var number = numbering.Of(table);
        var caption = number == 0 ? [] : Box.Lines(breaking.Lines(Prose.Of($"{phrases.Of(Phrase.TableNumber, number)} ", SpanLook.Strong) + table.Caption, Sheet.Caption, Sheet.Measure), Sheet.Caption, 14)
            .Append(new Box(4, (_, _, _) => { })).Select(b => b with { IsTiedToNext = true });
        return caption.Concat(_tables.Set(table)).Append(new Box(6, (_, _, _) => { }));
    }

    /// <summary>A bar at the left, thick for cautions; warnings bear a sign. Nothing rests on colour.</summary>
    private IEnumerable<Box> Note(Note note)
    {
        var bar = note.Kind == NoteKind.Caution ? 3.5f : 1.6f;
        var text = note.Kind switch { NoteKind.Warning => Prose.Of($"{phrases[Phrase.WarningSign]} ", SpanLook.Strong) + note.Text, NoteKind.Caution => Prose.Of($"{phrases[Phrase.CautionSign]} ", SpanLook.Strong) + note.Text, _ => note.Text };
        var boxes = Box.Lines(breaking.Lines(text, Sheet.Note, Sheet.Measure - NoteInset - 8), Sheet.Note, 0, NoteInset).ToList();
        return boxes.Select((b, i) => b with
        {
            Before = i == 0 ? 8 : 0,
            Draw = (c, x, y) =>
            {
                Sheet.Fill(c, x, y, Sheet.Measure, b.Height + 0.2f, Sheet.Shade);
                Sheet.Fill(c, x, y, bar, b.Height + 0.2f, note.Kind == NoteKind.Remark ? Sheet.Rule : Sheet.Ink);
                b.Draw(c, x, y);
            },
        });
    }

    private Box Entry(LegendEntry entry)
    {
        const float swatch = 30, height = 15;
        var lines = breaking.Lines(entry.Text, Sheet.Caption, Sheet.Measure - swatch - 10);
        return new Box(Math.Max(height, lines.Count * Sheet.Leading(Sheet.Caption)) + 2, (c, x, y) =>
        {
            Drawings.Draw(c, entry.Swatch, new SKRect(x, y + 1, x + swatch, y + height));
            for (var i = 0; i < lines.Count; i++) lines[i].Draw(c, x + swatch + 10, y + 1.5f + i * Sheet.Leading(Sheet.Caption) + Sheet.Ascent(Sheet.Caption));
        }) { Before = 2 };
    }

    private Box Signature(SignatureLine line)
    {
        var (role, name, at) = (breaking.Line(line.Role, Sheet.Name), breaking.Line(line.Name, Sheet.Body), breaking.Line(line.At, Sheet.Body));
        var (signed, dated) = (breaking.Line(phrases[Phrase.NameAndSignature], Sheet.Furniture), breaking.Line(phrases[Phrase.DateAndTime], Sheet.Furniture));
        const float space = 34, second = 320;
        return new Box(space + 34, (c, x, y) =>
        {
            role.Draw(c, x, y + 12);
            name.Draw(c, x, y + space + 6);
            at.Draw(c, x + second, y + space + 6);
            Sheet.Line(c, x, y + space + 11, second - 20, 0.6f, Sheet.Rule);
            Sheet.Line(c, x + second, y + space + 11, Sheet.Measure - second, 0.6f, Sheet.Rule);
            signed.Draw(c, x, y + space + 21);
            dated.Draw(c, x + second, y + space + 21);
        }) { Before = 8 };
    }
}
