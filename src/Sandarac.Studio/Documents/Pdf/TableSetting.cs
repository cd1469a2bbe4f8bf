using System.Globalization;
using Sandarac.Studio.Documents.Model;
using SkiaSharp;

namespace Sandarac.Studio.Documents.Pdf;

/// <summary>Sets tables: figures with their decimal signs below one another, the head again on every page, wide tables in several parts that repeat the first column.</summary>
internal sealed class TableSetting(LineBreaking breaking, CultureInfo culture)
{
    private const float Gap = 12, Pad = 3.2f, LeastWords = 96, LeastShare = 44;

    /// <summary>A column with the room it needs.</summary>
    /// <param name="Index">Which of the table's.</param>
    /// <param name="Width">Its width, points.</param>
    /// <param name="After">For figures: room right of where the decimal sign begins.</param>
    private sealed record Room(int Index, float Width, float After);

    /// <summary>The table's boxes without its caption.</summary>
    public IEnumerable<Box> Set(Table table)
    {
        var figures = table.Columns.Select((c, i) => c.Kind == ColumnKind.Number ? Figures(table, i) : null).ToArray();
        var parts = Parts(table, figures).ToList();
        for (var i = 0; i < parts.Count; i++)
        {
            var head = Head(table, parts[i]);
            yield return head with { Before = i == 0 ? 0 : 10, IsTiedToNext = table.Rows.Count > 0 };
            foreach (var box in table.Rows.SelectMany((r, n) => Row(table, r, parts[i], n < 1 && table.Rows.Count > 1 || n == table.Rows.Count - 2))) yield return box with { Head = head };
        }
    }

    /// <summary>All columns when they fit; else the first one with as many others as fit, and so on.</summary>
    private IEnumerable<List<Room>> Parts(Table table, Room?[] figures)
    {
        var words = table.Columns.Select((_, i) => figures[i] is null ? Math.Max(LeastShare, Math.Min(LeastWords, Narrowest(table, i))) : 0).ToArray();
        float Least(int i) => (figures[i]?.Width ?? words[i]) + Gap;
        List<int> part = [0];
        var used = Least(0);
        for (var i = 1; i < table.Columns.Count; i++)
        {
            if (used + Least(i) - Gap > Sheet.Measure && part.Count > 1)
            {
                yield return Rooms(table, part, figures, words);
                (part, used) = ([0], Least(0));
            }
            part.Add(i);
            used += Least(i);
        }
        yield return Rooms(table, part, figures, words);
    }

    /// <summary>Words share what figures leave: each as much of it as its column's share of all shares, but no less than its longest word and no more than its longest text.</summary>
    private List<Room> Rooms(Table table, List<int> part, Room?[] figures, float[] words)
    {
        var wide = part.Where(i => figures[i] is null).ToList();
        var rest = Sheet.Measure - Gap * (part.Count - 1) - part.Sum(i => figures[i]?.Width ?? 0);
        float Width(int i, float unit) => Math.Min(Math.Max(words[i], unit * (float)table.Columns[i].Share), Math.Max(words[i], Widest(table, i)));
        // What one share is worth: more gives wider columns, so that halving finds it.
        var (least, most) = (0f, wide.Select(i => Sheet.Measure / (float)table.Columns[i].Share).DefaultIfEmpty(0).Max());
        for (var round = 0; round < 24; round++)
        {
            var middle = (least + most) / 2;
            if (wide.Sum(i => Width(i, middle)) <= rest) least = middle;
            else most = middle;
        }
        return [.. part.Select(i => figures[i] ?? new Room(i, wide.Count == part.Count && part.Count == 1 ? rest : Width(i, least), 0))];
    }

    private float Narrowest(Table table, int column) => table.Rows.Select(r => breaking.Narrowest(r[column], Sheet.Cell)).Append(breaking.Narrowest(table.Columns[column].Title, Sheet.Head)).Max();

    private float Widest(Table table, int column) => table.Rows.Select(r => breaking.Line(r[column], Sheet.Cell).Width).Append(breaking.Line(table.Columns[column].Title, Sheet.Head).Width).Max() + 0.5f;

    private Room Figures(Table table, int column)
    {
        var cells = table.Rows.Select(r => r[column]).Where(IsFigure).Select(Split).Select(s => (Before: breaking.Line(s.Before, Sheet.Cell).Width, After: breaking.Line(s.After, Sheet.Cell).Width)).ToList();
        var (before, after) = (cells.Select(c => c.Before).DefaultIfEmpty(0).Max(), cells.Select(c => c.After).DefaultIfEmpty(0).Max());
        var others = table.Rows.Select(r => r[column]).Where(c => !IsFigure(c)).Select(c => breaking.Narrowest(c, Sheet.Cell)).DefaultIfEmpty(0).Max();
        var title = table.Columns[column].Title;
        var heading = Math.Max(breaking.Narrowest(title, Sheet.Head), breaking.Line(title, Sheet.Head).Width / 3);
        return new Room(column, Math.Min(Math.Max(Math.Max(before + after, others), heading) + 0.5f, Sheet.Measure / 2), after);
    }

    private static bool IsFigure(Prose cell) => cell.Spans is [{ Text: [.. var text] }, ..] && text.TrimStart('-', '\u2212') is [>= '0' and <= '9', ..];

    /// <summary>Before the decimal sign, and from it on.</summary>
    private (Prose Before, Prose After) Split(Prose cell)
    {
        var first = cell.Spans[0];
        var at = first.Text.IndexOf(culture.NumberFormat.NumberDecimalSeparator, StringComparison.Ordinal);
        if (at < 0) at = first.Text.TakeWhile(c => char.IsAsciiDigit(c) || c is '-' or '\u2212').Count();
        return (Prose.Of(first.Text[..at], first.Look), new Prose([first with { Text = first.Text[at..] }, .. cell.Spans.Skip(1)]));
    }

    private Box Head(Table table, List<Room> rooms)
    {
        var cells = rooms.Select(r => (Room: r, Lines: breaking.Lines(table.Columns[r.Index].Title, Sheet.Head, r.Width))).ToList();
        var (leading, deepest) = (Sheet.Leading(Sheet.Head), cells.Max(c => c.Lines.Count));
        var height = deepest * leading + Pad + 2;
        return new Box(height, (canvas, x, y) =>
        {
            for (var (i, at) = (0, x); i < cells.Count; at += cells[i++].Room.Width + Gap)
                for (var n = 0; n < cells[i].Lines.Count; n++)
                    cells[i].Lines[n].Draw(canvas, At(table, cells[i].Room, at, cells[i].Lines[n].Width), y + (deepest - cells[i].Lines.Count + n) * leading + Sheet.Ascent(Sheet.Head));
            Sheet.Line(canvas, x, y + height - 1, Sheet.Measure, 0.8f, Sheet.Rule);
        });
    }

    /// <summary>A row in one box; a row that would take most of a page is divided between its lines.</summary>
    private IEnumerable<Box> Row(Table table, IReadOnlyList<Prose> row, List<Room> rooms, bool isTied)
    {
        var leading = Sheet.Leading(Sheet.Cell);
        var cells = rooms.Select(r => (Room: r, Setters: Cell(table, row[r.Index], r).ToList())).ToList();
        var deepest = cells.Max(c => c.Setters.Count);
        var slice = deepest * leading > Sheet.Depth / 2 ? (int)(Sheet.Depth / 4 / leading) : deepest;
        for (var from = 0; from < deepest; from += slice)
        {
            var (first, count) = (from, Math.Min(slice, deepest - from));
            var isLast = first + count == deepest;
            var height = count * leading + (first == 0 ? Pad : 0) + (isLast ? Pad : 0);
            yield return new Box(height, (canvas, x, y) =>
            {
                for (var (i, at) = (0, x); i < cells.Count; at += cells[i++].Room.Width + Gap)
                    for (var n = first; n < Math.Min(first + count, cells[i].Setters.Count); n++)
                        cells[i].Setters[n](canvas, at, y + (first == 0 ? Pad : 0) + (n - first) * leading + Sheet.Ascent(Sheet.Cell));
                if (isLast) Sheet.Line(canvas, x, y + height, Sheet.Measure, 0.4f, Sheet.Hair);
            }) { IsTiedToNext = isTied && deepest == slice };
        }
    }

    private IEnumerable<Action<SKCanvas, float, float>> Cell(Table table, Prose cell, Room room)
    {
        if (table.Columns[room.Index].Kind != ColumnKind.Number || !IsFigure(cell))
            return breaking.Lines(cell, Sheet.Cell, room.Width).Select(l => (Action<SKCanvas, float, float>)((c, x, y) => l.Draw(c, At(table, room, x, l.Width), y)));
        var (before, after) = Split(cell);
        var (whole, rest) = (breaking.Line(before, Sheet.Cell), breaking.Line(after, Sheet.Cell));
        return [(c, x, y) =>
        {
            var sign = x + room.Width - room.After;
            whole.Draw(c, sign - whole.Width, y);
            rest.Draw(c, sign, y);
        }];
    }

    private static float At(Table table, Room room, float x, float width) => table.Columns[room.Index].Kind == ColumnKind.Number ? x + room.Width - width : x;
}
