using System.Globalization;
using System.Xml.Linq;
using Sandarac.Studio.Plans.Drawing;

namespace Sandarac.Studio.Rings.Drawing;

/// <summary>The frame of a chart as SVG: its field, ticks with their figures, and lines in it. Greys, so that it stays readable in print; a page's style sheet may replace them by the classes.</summary>
internal sealed class Chart
{
    private const double Left = 52, Right = 16, Top = 16, Bottom = 44, Letter = 13;

    private readonly double _width, _height;
    private readonly (double From, double To) _x, _y;
    private readonly List<XElement> _drawn = [];

    /// <summary>Begins a chart.</summary>
    /// <param name="width">Whole width, px.</param>
    /// <param name="height">Whole height, px.</param>
    /// <param name="x">Range along the foot.</param>
    /// <param name="y">Range upward.</param>
    /// <param name="xTitle">What the foot counts.</param>
    /// <param name="yTitle">What the side counts.</param>
    public Chart(double width, double height, (double From, double To) x, (double From, double To) y, string xTitle, string yTitle)
    {
        (_width, _height, _x, _y) = (width, height, x.To > x.From ? x : (x.From - 1, x.From + 1), y.To > y.From ? y : (y.From - 1, y.From + 1));
        foreach (var tick in Ticks(_x, width / 90)) Add("tick", Line(X(tick), height - Bottom, X(tick), height - Bottom + 5, 1), Text(Figure(tick), X(tick), height - Bottom + 19, "middle"));
        foreach (var tick in Ticks(_y, height / 45)) Add("tick", Line(Left, Y(tick), width - Right, Y(tick), 0.5, "#c8c8c8"), Text(Figure(tick), Left - 8, Y(tick) + 4, "end"));
        Add("axis", Line(Left, height - Bottom, width - Right, height - Bottom, 1), Text(xTitle, (Left + width - Right) / 2, height - 6, "middle"), Text(yTitle, Left, Top - 4, "start"));
    }

    /// <summary>Upright strokes from 0.</summary>
    public void Spikes(IEnumerable<(double X, double Y)> values, string colour, double breadth) =>
        _drawn.Add(Path(string.Concat(values.Select(v => string.Create(CultureInfo.InvariantCulture, $"M{X(v.X):0.#} {Y(0):0.#}V{Y(v.Y):0.#}"))), colour, breadth, null));

    /// <summary>A line through values; broken where one is missing.</summary>
    public void Curve(IEnumerable<(double X, double Y)> values, string colour, double breadth, string? dashes = null)
    {
        var (path, isBroken) = (new System.Text.StringBuilder(), true);
        foreach (var (x, y) in values)
        {
            if (double.IsFinite(y)) path.Append(CultureInfo.InvariantCulture, $"{(isBroken ? 'M' : 'L')}{X(x):0.#} {Y(y):0.#}");
            isBroken = !double.IsFinite(y);
        }
        _drawn.Add(Path(path.ToString(), colour, breadth, dashes));
    }

    /// <summary>A level line with its word.</summary>
    public void Level(double y, string word)
    {
        Add("level", Dashed(Line(Left, Y(y), _width - Right, Y(y), 1)), Text(word, _width - Right, Y(y) - 4, "end"));
    }

    /// <summary>A word at a place.</summary>
    public void Mark(double x, double y, string word) => Add("mark", Text(word, Math.Clamp(X(x), Left + 40, _width - Right - 40), Math.Max(Top + 8, Y(y) - 6), "middle", "600"));

    /// <summary>The whole as one SVG element.</summary>
    /// <param name="title">What it shows, for those who do not see it.</param>
    public string ToSvg(string title) => Ink.Element("svg", new XAttribute("class", "chart"), new XAttribute("role", "img"), Ink.Mm("width", _width), Ink.Mm("height", _height),
        new XAttribute("viewBox", string.Create(CultureInfo.InvariantCulture, $"0 0 {_width:0.#} {_height:0.#}")), new XAttribute("font-family", "Source Sans 3, sans-serif"), Ink.Title(title), _drawn).ToString(SaveOptions.DisableFormatting);

    private double X(double value) => Left + (value - _x.From) / (_x.To - _x.From) * (_width - Left - Right);

    private double Y(double value) => _height - Bottom - (value - _y.From) / (_y.To - _y.From) * (_height - Top - Bottom);

    private void Add(string group, params XElement[] elements) => _drawn.Add(Ink.Element("g", new XAttribute("class", group), elements));

    /// <summary>Round steps of 1, 2 or 5, about as many as asked for.</summary>
    private static IEnumerable<double> Ticks((double From, double To) range, double about)
    {
        var rough = (range.To - range.From) / Math.Max(2, about);
        var power = Math.Pow(10, Math.Floor(Math.Log10(rough)));
        var step = power * (rough / power > 5 ? 10 : rough / power > 2 ? 5 : rough / power > 1 ? 2 : 1);
        for (var k = Math.Ceiling(range.From / step); k * step <= range.To + 1e-9 * step; k++) yield return k * step;
    }

    private static string Figure(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);

    private static XElement Line(double x1, double y1, double x2, double y2, double breadth, string colour = "#4d4d4d") =>
        Ink.Element("line", Ink.Mm("x1", x1), Ink.Mm("y1", y1), Ink.Mm("x2", x2), Ink.Mm("y2", y2), new XAttribute("stroke", colour), Ink.Mm("stroke-width", breadth));

    private static XElement Dashed(XElement line)
    {
        line.Add(new XAttribute("stroke-dasharray", "6 4"));
        return line;
    }

    private static XElement Path(string d, string colour, double breadth, string? dashes) => Ink.Element("path", new XAttribute("d", d), new XAttribute("fill", "none"), new XAttribute("stroke", colour), Ink.Mm("stroke-width", breadth),
        new XAttribute("stroke-linejoin", "round"), dashes is null ? null : new XAttribute("stroke-dasharray", dashes));

    private static XElement Text(string text, double x, double y, string anchor, string weight = "400") => Ink.Element("text", Ink.Mm("x", x), Ink.Mm("y", y), Ink.Mm("font-size", Letter), new XAttribute("font-weight", weight),
        new XAttribute("text-anchor", anchor), new XAttribute("fill", "#1c1c1c"), Ink.Legal(text));
}
