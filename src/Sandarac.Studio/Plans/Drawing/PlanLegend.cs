using System.Xml.Linq;
using NetTopologySuite.Geometries;
using Sandarac.Materials.Terms;

namespace Sandarac.Studio.Plans.Drawing;

/// <summary>A sign's row in the legend.</summary>
/// <param name="Swatch">It, in a box of the swatch's size with its upper left corner at (0, 0).</param>
/// <param name="Heading">What it is called, in bold.</param>
/// <param name="Text">What is meant by it.</param>
/// <param name="Figures">How often and how much.</param>
internal sealed record LegendRow(IEnumerable<XElement?> Swatch, string Heading, string Text, string Figures);

/// <summary>The legend below a plan: only what it shows.</summary>
internal static class PlanLegend
{
    public const double SwatchWidth = 14, SwatchHeight = 8.5;

    private const double Size = 2.6, Step = 3.3, Gap = 2.4, Between = 6, NarrowestColumn = 75;

    /// <summary>A swatch of an appearance by itself, for tables and lists.</summary>
    public static XElement Swatch(Appearance appearance) => Ink.Sheet(SwatchWidth, SwatchHeight, $"{appearance.Code}: {appearance.Name}", Draw(appearance));

    /// <summary>A patch of a hatch within its outline.</summary>
    public static IEnumerable<XElement?> Draw(Appearance appearance)
    {
        var (patch, half) = (GeometryFactory.Default.ToGeometry(new Envelope(0, SwatchWidth, 0, SwatchHeight)), appearance.Outline.WidthMm / 2);
        yield return Ink.Rectangle(0, 0, SwatchWidth, SwatchHeight, Ink.White, "none", 0);
        foreach (var path in Hatched(appearance, patch)) yield return path;
        yield return Ink.Path($"M{Ink.Text(half)} {Ink.Text(half)}H{Ink.Text(SwatchWidth - half)}V{Ink.Text(SwatchHeight - half)}H{Ink.Text(half)}Z", appearance.Ink, appearance.Outline.WidthMm, appearance.Outline.Dashes);
    }

    /// <summary>A hatch over an area on the sheet.</summary>
    /// <param name="appearance">Whose.</param>
    /// <param name="area">Where.</param>
    /// <param name="overPicture">Whether its lines have white beside them.</param>
    public static IEnumerable<XElement?> Hatched(Appearance appearance, Geometry area, bool overPicture = false)
    {
        var (fine, bold) = HatchLines.Over(appearance.Hatch, area);
        if (overPicture)
        {
            yield return Ink.Strokes(fine, Ink.White, Hatch.FineMm + Ink.CasingMm);
            yield return Ink.Strokes(bold, Ink.White, Hatch.BoldMm + Ink.CasingMm);
        }
        yield return Ink.Strokes(fine, appearance.Ink, Hatch.FineMm);
        yield return Ink.Strokes(bold, appearance.Ink, Hatch.BoldMm);
    }

    /// <summary>A term's row.</summary>
    public static LegendRow Of(TermExtent term) => new(Draw(term.Appearance), $"{term.Appearance.Code}  {term.Appearance.Name}", term.Definition,
        $"{PlanWords.Count(term.Numbers.Count, "finding")} ({Numbers(term.Numbers)}): {PlanWords.Extent(term.Extent)}");

    /// <summary>The rows in as many columns as the breadth has room for, filled one after the other.</summary>
    /// <returns>The legend with its upper left corner at (0, 0), and how high it is.</returns>
    public static (IReadOnlyList<XElement> Drawn, double Height) Draw(IReadOnlyList<LegendRow> rows, double width)
    {
        var columns = Math.Clamp((int)((width + Between) / (NarrowestColumn + Between)), 1, 3);
        var column = (width - (columns - 1) * Between) / columns;
        var drawn = rows.Select(r => Row(r, column)).ToList();
        var (height, most, x, y) = (drawn.Sum(d => d.Height) / columns, 0.0, 0.0, 0.0);
        List<XElement> placed = [];
        foreach (var (row, rowHeight) in drawn)
        {
            if (y > 0 && y + rowHeight / 2 > height && x + column < width - 1) (x, y) = (x + column + Between, 0);
            placed.Add(Ink.Group(x, y, row));
            y += rowHeight;
            most = Math.Max(most, y);
        }
        return (placed, most);
    }

    private static (IReadOnlyList<XElement?> Drawn, double Height) Row(LegendRow row, double width)
    {
        var (left, breadth) = (SwatchWidth + 2.5, width - SwatchWidth - 2.5);
        List<XElement?> drawn = [.. row.Swatch];
        var y = 2.3;
        foreach (var (text, weight, fill) in Ink.Lines(row.Heading, breadth, Size * 1.08, 2).Select(t => (t, 600, Ink.Black)).Concat(Ink.Lines(row.Text, breadth, Size, 4).Select(t => (t, 400, Ink.Quiet))).Concat(Ink.Lines(row.Figures, breadth, Size, 5).Select(t => (t, 400, Ink.Black))))
        {
            drawn.Add(Ink.Words(text, left, y, Size, weight, fill: fill));
            y += Step;
        }
        return (drawn, Math.Max(SwatchHeight, y - Step + 1) + Gap);
    }

    /// <summary>"1, 3, 4"; of many the first ones.</summary>
    private static string Numbers(IReadOnlyList<int> numbers) => numbers.Count <= 12 ? string.Join(", ", numbers) : $"{string.Join(", ", numbers.Take(10))} \u2026 {numbers[^1]}";
}
