using System.Globalization;
using System.Text;
using System.Xml.Linq;
using NetTopologySuite.Geometries;
using Sandarac.Studio.Places;

namespace Sandarac.Studio.Plans.Drawing;

/// <summary>The few SVG elements that plans are made of. Lengths are millimetres on the sheet.</summary>
internal static class Ink
{
    /// <summary>White on both sides of a line over a picture, together, mm.</summary>
    public const double CasingMm = 0.3;

    public const string Black = "#000000", Quiet = "#4d4d4d", White = "#ffffff";

    /// <summary>Mean breadth of a letter of Source Sans 3 as a share of its size; wide letters are few in words and numbers.</summary>
    private const double Breadth = 0.52;

    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";

    /// <summary>An element with attributes and what is in it.</summary>
    public static XElement Element(string name, params object?[] content) => new(Svg + name, content);

    /// <summary>A sheet by itself.</summary>
    public static XElement Sheet(double width, double height, string says, params object?[] content) => Element("svg", new XAttribute("width", $"{Text(width)}mm"), new XAttribute("height", $"{Text(height)}mm"), new XAttribute("viewBox", $"0 0 {Text(width)} {Text(height)}"),
        new XAttribute("role", "img"), new XAttribute("font-family", "Source Sans 3, sans-serif"), Title(says), content);

    /// <summary>What a sign says when it is pointed at.</summary>
    public static XElement Title(string text) => Element("title", Legal(text));

    /// <summary>Moved.</summary>
    public static XElement Group(double x, double y, params object?[] content) => Element("g", new XAttribute("transform", $"translate({Text(x)} {Text(y)})"), content);

    /// <summary>Lines, or outlines; null when there is nothing to draw.</summary>
    public static XElement? Path(string d, string stroke, double width, IReadOnlyList<double>? dashes = null, string fill = "none") => d.Length == 0 ? null : Element("path", new XAttribute("d", d), new XAttribute("fill", fill), fill == "none" ? null : new XAttribute("fill-rule", "evenodd"),
        new XAttribute("stroke", stroke), Mm("stroke-width", width), dashes is { Count: > 0 } ? new XAttribute("stroke-dasharray", string.Join(' ', dashes.Select(Text))) : null);

    /// <summary>Strokes whose ends are round: dots among them.</summary>
    public static XElement? Strokes(string d, string stroke, double width) => Path(d, stroke, width) is not { } path ? null : With(path, new XAttribute("stroke-linecap", "round"), new XAttribute("stroke-linejoin", "round"));

    public static XElement Rectangle(double x, double y, double width, double height, string fill, string stroke, double line) => Element("rect", Mm("x", x), Mm("y", y), Mm("width", width), Mm("height", height), new XAttribute("fill", fill), new XAttribute("stroke", stroke), Mm("stroke-width", line));

    public static XElement Circle(double x, double y, double radius, string fill, string stroke, double line) => Element("circle", Mm("cx", x), Mm("cy", y), Mm("r", radius), new XAttribute("fill", fill), new XAttribute("stroke", stroke), Mm("stroke-width", line));

    /// <summary>Words, their base line at y.</summary>
    public static XElement Words(string text, double x, double y, double size, int weight = 400, string anchor = "start", string fill = Black) => Element("text", Mm("x", x), Mm("y", y), Mm("font-size", size), weight == 400 ? null : new XAttribute("font-weight", weight),
        anchor == "start" ? null : new XAttribute("text-anchor", anchor), new XAttribute("fill", fill), Legal(text));

    /// <summary>About how broad words are.</summary>
    public static double BreadthOf(string text, double size) => Breadth * size * text.Length;

    /// <summary>Words in lines of a breadth, broken between words; a word that is longer is cut.</summary>
    public static IReadOnlyList<string> Lines(string text, double breadth, double size, int most)
    {
        var letters = Math.Max(4, (int)(breadth / (Breadth * size)));
        List<string> lines = [];
        foreach (var word in text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries).Select(w => Cut(w, letters)))
            if (lines.Count > 0 && lines[^1].Length + 1 + word.Length <= letters) lines[^1] += $" {word}";
            else lines.Add(word);
        return lines.Count <= most ? lines : [.. lines.Take(most - 1), Cut($"{lines[most - 1]}\u2026\u2026", letters)];
    }

    /// <summary>The path of a geometry's lines, or of its polygons' rings.</summary>
    public static string PathOf(Geometry geometry)
    {
        var path = new StringBuilder();
        foreach (var part in CoveredArea.Parts(geometry))
            if (part is Polygon polygon) foreach (var ring in polygon.InteriorRings.Prepend(polygon.ExteriorRing)) Append(path, ring.Coordinates.AsSpan(..^1), closed: true);
            else if (part is LineString line) Append(path, line.Coordinates, closed: false);
        return path.ToString();
    }

    /// <summary>Adds one line.</summary>
    public static void Append(StringBuilder path, ReadOnlySpan<Coordinate> points, bool closed)
    {
        for (var i = 0; i < points.Length; i++) path.Append(i == 0 ? 'M' : 'L').Append(Text(points[i].X)).Append(' ').Append(Text(points[i].Y));
        if (closed) path.Append('Z');
    }

    public static XAttribute Mm(string name, double value) => new(name, Text(value));

    /// <summary>To a hundredth of a millimetre, finer than any printer.</summary>
    public static string Text(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);

    private static string Cut(string word, int letters) => word.Length <= letters ? word : $"{word[..(letters - 1)].TrimEnd('\u2026')}\u2026";

    private static XElement With(XElement element, params object[] content)
    {
        element.Add(content);
        return element;
    }

    /// <summary>Without what XML cannot hold.</summary>
    public static string Legal(string text) => string.Concat(text.EnumerateRunes().Where(r => r.Value is '\t' or '\n' or '\r' or (>= ' ' and not (0xFFFE or 0xFFFF))));
}
