using System.Globalization;
using Sandarac.Studio.Documents.Model;

namespace Sandarac.Studio.Documents.Web;

/// <summary>Brings the decimal signs of a column below one another where a page knows no such setting: shorter figures are followed by blanks as wide as figures.</summary>
internal sealed class DecimalPadding
{
    private const char FigureBlank = '\u2007', SignBlank = '\u2008';

    private readonly CultureInfo _culture;
    private readonly int _places, _small;

    public DecimalPadding(IReadOnlyList<Prose> cells, CultureInfo culture)
    {
        _culture = culture;
        _places = cells.Where(IsFigure).Select(c => Places(c.Spans[0].Text)).DefaultIfEmpty(0).Max();
        _small = cells.Where(IsFigure).Select(Small).DefaultIfEmpty(0).Max();
    }

    /// <summary>The cell with its blanks.</summary>
    public Prose Pad(Prose cell)
    {
        if (!IsFigure(cell) || cell.Spans.Any(s => s.Look is not (SpanLook.Plain or SpanLook.Small))) return cell;
        var places = Places(cell.Spans[0].Text);
        var blanks = (places == 0 && _places > 0 ? $"{SignBlank}" : "") + new string(FigureBlank, _places - places);
        var figure = cell.Spans[0] with { Text = cell.Spans[0].Text + blanks };
        return new Prose([figure, .. cell.Spans.Skip(1), new Span(new string(FigureBlank, _small - Small(cell)), SpanLook.Small)]);
    }

    private static bool IsFigure(Prose cell) => cell.Spans is [{ Text: var text }, ..] && text.AsSpan().TrimStart('-') is [>= '0' and <= '9', ..];

    private static int Small(Prose cell) => cell.Spans.Where(s => s.Look == SpanLook.Small).Sum(s => s.Text.Length);

    private int Places(string figure) => figure.IndexOf(_culture.NumberFormat.NumberDecimalSeparator, StringComparison.Ordinal) is >= 0 and var at ? figure.Length - at - 1 : 0;
}
