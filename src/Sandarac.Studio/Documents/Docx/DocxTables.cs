using System.Globalization;
using DocumentFormat.OpenXml.Wordprocessing;
using Sandarac.Studio.Documents.Model;
using Sandarac.Studio.Documents.Phrasing;
using Paragraph = DocumentFormat.OpenXml.Wordprocessing.Paragraph;
using Table = DocumentFormat.OpenXml.Wordprocessing.Table;

namespace Sandarac.Studio.Documents.Docx;

/// <summary>Tables: their heads are repeated on every page, their rows are not divided.</summary>
internal static class DocxTables
{
    /// <summary>A table; figures stand at a decimal tab, which a word processor applies in cells by itself.</summary>
    public static Table Of(Model.Table table, CultureInfo culture)
    {
        var widths = Widths(table);
        var grid = New(widths);
        grid.Append(Row(table.Columns.Select((c, i) => Cell(widths[i], "TableHead", DocxText.Runs(c.Title), c.Kind == ColumnKind.Number)), isHead: true));
        foreach (var row in table.Rows) grid.Append(Row(row.Select((c, i) => table.Columns[i].Kind == ColumnKind.Number ? Figure(widths[i], c, table, i, culture) : Cell(widths[i], "TableText", DocxText.Runs(c)))));
        return grid;
    }

    /// <summary>Names at the left, facts at the right.</summary>
    public static Table Of(Facts facts)
    {
        int[] widths = [DocxStyles.Measure * 3 / 11, DocxStyles.Measure - DocxStyles.Measure * 3 / 11];
        var grid = New(widths, isRuled: false);
        foreach (var fact in facts.Items) grid.Append(Row([Cell(widths[0], "FactName", DocxText.Runs(fact.Name)), Cell(widths[1], "Fact", DocxText.Runs(fact.Value))]));
        return grid;
    }

    /// <summary>Lines to sign on.</summary>
    public static Table Of(Signatures signatures, Phrases phrases)
    {
        int[] widths = [DocxStyles.Measure * 2 / 3, DocxStyles.Measure - DocxStyles.Measure * 2 / 3];
        var grid = New(widths, isRuled: false);
        foreach (var line in signatures.Lines)
        {
            grid.Append(Row([Cell(widths[0], "SignRole", DocxText.Runs(line.Role)), Cell(widths[1], "SignRole", [])]));
            grid.Append(Row([Cell(widths[0], "SignLine", DocxText.Runs(line.Name)), Cell(widths[1], "SignLine", DocxText.Runs(line.At))]));
            grid.Append(Row([Cell(widths[0], "TableText", DocxText.Runs(phrases[Phrase.NameAndSignature])), Cell(widths[1], "TableText", DocxText.Runs(phrases[Phrase.DateAndTime]))]));
        }
        return grid;
    }

    /// <summary>An empty table.</summary>
    /// <param name="widths">Of its columns, twentieths of a point.</param>
    /// <param name="isRuled">Whether lines divide its rows.</param>
    public static Table New(IReadOnlyList<int> widths, bool isRuled = true)
    {
        var properties = new TableProperties(new TableWidth { Width = Text(widths.Sum()), Type = TableWidthUnitValues.Dxa });
        if (isRuled) properties.Append(new TableBorders(new TopBorder { Val = BorderValues.None }, new BottomBorder { Val = BorderValues.Single, Size = 4, Color = "D6D6D6" }, new InsideHorizontalBorder { Val = BorderValues.Single, Size = 4, Color = "D6D6D6" }));
        properties.Append(new TableLayout { Type = TableLayoutValues.Fixed }, new TableCellMarginDefault(new TableCellLeftMargin { Width = 0, Type = TableWidthValues.Dxa }, new TableCellRightMargin { Width = 160, Type = TableWidthValues.Dxa }));
        return new Table(properties, new TableGrid(widths.Select(w => new GridColumn { Width = Text(w) })));
    }

    public static TableRow Row(IEnumerable<TableCell> cells, bool isHead = false)
    {
        var properties = new TableRowProperties(new CantSplit());
        if (isHead) properties.Append(new TableHeader());
        var row = new TableRow(properties);
        row.Append(cells);
        return row;
    }

    public static TableCell Cell(int width, params IEnumerable<Paragraph> paragraphs)
    {
        var cell = new TableCell(new TableCellProperties(new TableCellWidth { Width = Text(width), Type = TableWidthUnitValues.Dxa }));
        cell.Append(paragraphs);
        return cell;
    }

    private static TableCell Cell(int width, string style, IEnumerable<Run> runs, bool isRight = false)
    {
        var paragraph = DocxText.Paragraph(style, runs);
        if (isRight) paragraph.ParagraphProperties!.Justification = new Justification { Val = JustificationValues.Right };
        return Cell(width, paragraph);
    }

    private static TableCell Figure(int width, Prose cell, Model.Table table, int column, CultureInfo culture)
    {
        if (cell.Spans is not [{ Text: [(>= '0' and <= '9') or '-', ..] }, ..]) return Cell(width, "TableText", DocxText.Runs(cell), isRight: true);
        // A letter of a figure takes about 4.5 points of the table's type.
        var after = table.Rows.Select(r => r[column]).Where(c => c.Spans.Count > 0).Max(c => c.Plain.Length - c.Spans[0].Text.IndexOf(culture.NumberFormat.NumberDecimalSeparator, StringComparison.Ordinal) is var rest && c.Plain.Contains(culture.NumberFormat.NumberDecimalSeparator, StringComparison.Ordinal) ? rest : c.Plain.Length - c.Spans[0].Text.Length);
        var paragraph = DocxText.Paragraph("TableText", DocxText.Runs(cell));
        paragraph.ParagraphProperties!.Tabs = new Tabs(new TabStop { Val = TabStopValues.Decimal, Position = Math.Max(200, width - 200 - after * 84) });
        return Cell(width, paragraph);
    }

    /// <summary>Shares of the measure: figures by their longest text, words by their shares of the rest.</summary>
    private static int[] Widths(Model.Table table)
    {
        var letters = table.Columns.Select((c, i) => c.Kind != ColumnKind.Number ? 0 : Math.Max(table.Rows.Select(r => r[i].Plain.Length).DefaultIfEmpty(0).Max(), c.Title.Plain.Split(' ').Max(w => w.Length))).ToArray();
        var figures = letters.Select(l => l == 0 ? 0 : Math.Min(3000, 260 + 96 * l)).ToArray();
        var (rest, shares) = (DocxStyles.Measure - figures.Sum(), table.Columns.Where(c => c.Kind != ColumnKind.Number).Sum(c => c.Share));
        if (shares == 0 || rest < 900 * table.Columns.Count(c => c.Kind != ColumnKind.Number)) return [.. table.Columns.Select(_ => DocxStyles.Measure / table.Columns.Count)];
        return [.. table.Columns.Select((c, i) => c.Kind == ColumnKind.Number ? figures[i] : (int)(rest * c.Share / shares))];
    }

    private static string Text(int width) => width.ToString(CultureInfo.InvariantCulture);
}
