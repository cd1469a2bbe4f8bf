using System.Xml.Linq;
using Sandarac.Materials.Dating;
using Sandarac.Studio.Plans.Drawing;

namespace Sandarac.Studio.Datings.Drawing;

/// <summary>Draws the years of materials beside a painting's as SVG in mm: a bar for the years of use, its end open where the material is still in use, a hatched part where an earlier beginning is contested, and the painting's years as a
/// band across. Each row has a letter and its verdict in words; nothing rests on colour.</summary>
public static class TimelineDrawing
{
    private const double Width = 190, Left = 62, Right = 32, Top = 12, Row = 7, Bar = 3, Text = 2.9, Hatch = 1.4;

    /// <summary>Years shown on both sides of the painting's at least, and round years on the axis.</summary>
    private const int Around = 60;

    /// <summary>Steps of the axis, years, the finest that leaves room for its figures.</summary>
    private static readonly int[] Steps = [10, 20, 25, 50, 100, 200, 500, 1000];

    private sealed record Axis(int First, int Last)
    {
        public double X(double year) => Left + (Math.Clamp(year, First, Last) - First) * (Width - Left - Right) / (Last - First);
    }

    /// <summary>The drawing; an empty sheet of the axis where there are no materials.</summary>
    /// <param name="checks">Materials in the order of their letters; all of one painting.</param>
    /// <param name="told">Puts what the drawing says into the language of the page; as it is by default.</param>
    public static string Draw(IReadOnlyList<DatingCheck> checks, Func<string, string>? told = null)
    {
        var say = told ?? (words => words);
        var axis = Ruled(checks);
        var foot = Top + checks.Count * Row;
        return Ink.Sheet(Width, foot + 10, "Years of materials and of the painting", Ink.Rectangle(0, 0, Width, foot + 10, Ink.White, "none", 0),
            Band(checks, axis, foot, say), Rules(axis, foot), checks.Select((c, i) => Line(c, i, axis, say))).ToString(SaveOptions.DisableFormatting);
    }

    /// <summary>The letter of a row: A to Z, then AA.</summary>
    public static string Letter(int index) => index < 26 ? $"{(char)('A' + index)}" : $"{Letter(index / 26 - 1)}{(char)('A' + index % 26)}";

    /// <summary>A verdict in few words.</summary>
    public static string Words(DatingVerdict verdict) => verdict switch
    {
        DatingVerdict.Consistent => "consistent",
        DatingVerdict.LaterThan => "later than",
        DatingVerdict.EndsBefore => "ends before",
        DatingVerdict.Contested => "contested",
        _ => "cannot be told",
    };

    /// <summary>From before the painting, or the earliest material that is near it, to after the latest; what lies far before is cut off with an open end.</summary>
    private static Axis Ruled(IReadOnlyList<DatingCheck> checks)
    {
        var painting = checks.SelectMany(c => new[] { c.From, c.To }).OfType<int>().ToList();
        var years = checks.SelectMany(c => new[] { c.Pigment.From, c.Pigment.ContestedFrom, c.Pigment.RareAfter }).OfType<int>().Concat(painting).Where(y => y >= 1200).DefaultIfEmpty(1800).ToList();
        return new Axis((years.Min() - Around) / 50 * 50, Math.Max((years.Max() + Around + 49) / 50 * 50, 2000));
    }

    private static XElement? Band(IReadOnlyList<DatingCheck> checks, Axis axis, double foot, Func<string, string> say)
    {
        if (checks.Count == 0 || checks[0] is { From: null, To: null }) return null;
        var (from, to) = (checks[0].From ?? axis.First, checks[0].To ?? axis.Last);
        var (x, width) = (axis.X(from - 0.5), Math.Max(0.8, axis.X(to + 0.5) - axis.X(from - 0.5)));
        return Ink.Element("g", new XAttribute("class", "painting"), Ink.Title($"The painting: {Year(checks[0].From)} to {Year(checks[0].To)}"), Ink.Rectangle(x, Top - 4, width, foot - Top + 4, "#e2e2e2", Ink.Quiet, 0.2),
            Ink.Words($"{say("painting")} {Year(checks[0].From)}-{Year(checks[0].To)}", x + width / 2, Top - 5.2, Text, 600, "middle"));
    }

    private static string Year(int? year) => year is { } known ? DatingCheck.Words(known) : "?";

    private static IEnumerable<XElement?> Rules(Axis axis, double foot)
    {
        var step = Steps.First(s => s == Steps[^1] || (axis.Last - axis.First) / s <= 10);
        yield return Ink.Path($"M{Ink.Text(Left)} {Ink.Text(foot)}H{Ink.Text(Width - Right)}", Ink.Black, 0.25);
        for (var year = (axis.First + step - 1) / step * step; year <= axis.Last; year += step)
        {
            yield return Ink.Path($"M{Ink.Text(axis.X(year))} {Ink.Text(foot)}v1.2", Ink.Black, 0.25);
            yield return Ink.Words(DatingCheck.Words(year), axis.X(year), foot + 4.6, Text, 400, "middle");
        }
    }

    private static XElement Line(DatingCheck check, int index, Axis axis, Func<string, string> say)
    {
        var (p, y) = (check.Pigment, Top + index * Row + Row / 2);
        var (from, to) = (axis.X(p.From), axis.X(p.RareAfter ?? axis.Last));
        return Ink.Element("g", new XAttribute("class", "material"), Ink.Title($"{p.Name}: {check.Reason} {p.Source}; {p.Flag}"),
            Ink.Words(Letter(index), 1, y + 1, Text, 600), Ink.Words(Ink.Lines(p.Name, Left - 10, Text, 1)[0], 8, y + 1, Text),
            Claim(p, axis, y), Ink.Rectangle(from, y - Bar / 2, Math.Max(0.4, to - from), Bar, "#6e6e6e", Ink.Black, 0.2),
            p.From < axis.First ? Open(from, y, -1) : null, p.RareAfter is null ? Open(to, y, 1) : null,
            Ink.Words(say(Words(check.Verdict)), Width - Right + 4, y + 1, Text, check.Verdict is DatingVerdict.Consistent or DatingVerdict.CannotBeTold ? 400 : 600));
    }

    /// <summary>The years that a claim adds, hatched; a claim without a year has a short piece with a question mark.</summary>
    private static XElement? Claim(Pigment p, Axis axis, double y)
    {
        if (p.Contested.Length == 0) return null;
        var (from, to) = (p.ContestedFrom is { } year ? axis.X(year) : Math.Max(Left, axis.X(p.From) - 6), axis.X(p.From));
        var strokes = string.Concat(Enumerable.Range(0, (int)((to - from) / Hatch) + 1).Select(i => from + i * Hatch).Where(x => x < to)
            .Select(x => $"M{Ink.Text(x)} {Ink.Text(y + Bar / 2)}L{Ink.Text(Math.Min(to, x + Hatch))} {Ink.Text(y - Bar / 2)}"));
        return Ink.Element("g", new XAttribute("class", "contested"), Ink.Rectangle(from, y - Bar / 2, Math.Max(0, to - from), Bar, Ink.White, Ink.Black, 0.2), Ink.Path(strokes, Ink.Black, 0.25),
            p.ContestedFrom is null ? Ink.Words("?", from - 1, y + 1, Text, 600, "end") : null);
    }

    /// <summary>An open end: the bar goes on.</summary>
    private static XElement? Open(double x, double y, int direction) => Ink.Path($"M{Ink.Text(x)} {Ink.Text(y - Bar / 2 - 0.6)}L{Ink.Text(x + direction * 2.4)} {Ink.Text(y)}L{Ink.Text(x)} {Ink.Text(y + Bar / 2 + 0.6)}Z", Ink.Black, 0.2, fill: "#6e6e6e");
}
