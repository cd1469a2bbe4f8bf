using System.Globalization;
using System.Xml.Linq;

namespace Sandarac.Studio.BuildUp.Drawing;

/// <summary>Draws a build-up from the support, at the foot, to the last varnish as SVG. Each age has an outline and a word of its own, contradicted relations a dash and a sign: nothing rests on colour. The greys
/// written into it serve documents; a page's style sheet may replace them by the classes.</summary>
public static class BuildUpDrawing
{
    private const double BoxWidth = 150, BoxHeight = 62, GapX = 12, Pitch = 104, Margin = 16, Caption = 20;

    /// <summary>Letters that fit a line of a box in 14 px Source Sans 3, whose letters are 6.6 px wide on average.</summary>
    private const int LineLength = 20;

    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";

    /// <summary>The drawing as one SVG element. Each box links to "#stage-ID" of its first stage. Stages of which nothing says what they lie over or under stand by themselves at the foot: a place among the others would say
    /// more than is known.</summary>
    public static string Draw(BuildUpOrder order)
    {
        var joined = order.Links.SelectMany(l => new[] { l.Upper.Index, l.Lower.Index }).ToHashSet();
        StageGroup[] groups = [.. order.Groups.Where(g => joined.Contains(g.Index) || g.Kind == StageKind.Support)], loose = [.. order.Groups.Except(groups)];
        var at = groups.Select((g, i) => (g.Index, i)).ToDictionary(g => g.Index, g => g.i);
        var layout = LayeredLayout.Of(groups.Length, [.. order.Links.Select(l => (at[l.Upper.Index], at[l.Lower.Index]))], i => groups[i].Kind == StageKind.Support);
        var (top, columns) = (layout.Boxes.Select(b => b.Layer).DefaultIfEmpty(-1).Max(), Math.Min(loose.Length, LayeredLayout.MostInLayer));
        double X(double x) => Margin + BoxWidth / 2 + x * (BoxWidth + GapX);
        double Y(int layer) => Margin + BoxHeight / 2 + (top - layer) * Pitch;
        var foot = groups.Length == 0 ? 0 : Y(0) + BoxHeight / 2 + Margin;
        double LooseY(int row) => foot + Caption + Margin + BoxHeight / 2 + row * (BoxHeight + GapX);
        var width = layout.Ways.SelectMany(w => w.Places).Select(p => p.X).Concat(layout.Boxes.Select(b => b.X)).Append(columns - 1).Max(x => X(Math.Max(0, x))) + BoxWidth / 2 + Margin;
        var height = loose.Length == 0 ? Math.Max(foot, Margin) : LooseY((loose.Length - 1) / columns) + BoxHeight / 2 + Margin;
        return new XElement(Svg + "svg", new XAttribute("class", "buildup"), Number("width", width), Number("height", height),
            new XAttribute("viewBox", string.Create(CultureInfo.InvariantCulture, $"0 0 {width:0.#} {height:0.#}")), new XAttribute("font-family", "Source Sans 3, sans-serif"),
            layout.Ways.Select(w => Link(order.Links[w.Link], [.. w.Places.Select(p => (X(p.X), Y(p.Layer)))])),
            groups.Zip(layout.Boxes, (g, b) => Box(order, g, X(b.X), Y(b.Layer))),
            loose.Length == 0 ? null : Text("Nothing says yet what these lie over or under:", Margin, foot + Caption, 14, "400", "#4d4d4d", "start"),
            loose.Select((g, i) => Box(order, g, X(i % columns), LooseY(i / columns)))).ToString(SaveOptions.DisableFormatting);
    }

    private static XElement Link(OrderLink link, IReadOnlyList<(double X, double Y)> places)
    {
        var (start, end) = (places[0].Y - BoxHeight / 2, places[^1].Y + BoxHeight / 2);
        List<string> path = [string.Create(CultureInfo.InvariantCulture, $"M{places[0].X:0.#} {start:0.#}")];
        for (var i = 1; i < places.Count; i++)
        {
            // A passing link is upright beside the boxes that it passes, and bends only between the layers.
            var (from, to) = (i == 1 ? start : places[i - 1].Y - BoxHeight / 2, i == places.Count - 1 ? end : places[i].Y + BoxHeight / 2);
            var middle = (from + to) / 2;
            path.Add(string.Create(CultureInfo.InvariantCulture, $"C{places[i - 1].X:0.#} {middle:0.#} {places[i].X:0.#} {middle:0.#} {places[i].X:0.#} {to:0.#}"));
            if (i < places.Count - 1) path.Add(string.Create(CultureInfo.InvariantCulture, $"V{places[i].Y - BoxHeight / 2:0.#}"));
        }
        var says = $"{link.Upper.Name} lies over {link.Lower.Name}: {string.Join("; ", link.Relations.Select(r => r.Evidence))}";
        var line = new XElement(Svg + "path", new XAttribute("d", string.Concat(path)), new XAttribute("fill", "none"), new XAttribute("stroke", "#4d4d4d"),
            Number("stroke-width", link.IsContradicted ? 2.5 : 1.25), link.IsContradicted ? new XAttribute("stroke-dasharray", "7 5") : null);
        var (x, y) = ((places[0].X + places[1].X) / 2, places[0].Y - Pitch / 2);
        return new XElement(Svg + "g", new XAttribute("class", link.IsContradicted ? "link against" : "link"), Title(says), line, link.IsContradicted ? Sign(x, y) : null);
    }

    private static XElement Box(BuildUpOrder order, StageGroup group, double x, double y)
    {
        var dating = Dating.Of(order, group);
        var age = $"{dating.Age}".ToLowerInvariant();
        var isAgainst = order.Links.Any(l => l.IsContradicted && (l.Upper == group || l.Lower == group));
        var lines = Lines(group.Name);
        var first = y - 9 * (lines.Count - 1) - 3;
        return new XElement(Svg + "a", new XAttribute("class", $"stage {age}"), new XAttribute("href", $"#stage-{group.Stages[0].Id}"),
            Title($"{group.Name}, {group.Kind.Word()}. {dating.Age}: {dating.Reason}"),
            Outline(x, y, 0, dating.Age == Age.Undetermined ? "5 4" : null), dating.Age == Age.Later ? Outline(x, y, 3.5, null) : null,
            lines.Select((text, i) => Text(text, x, first + 17 * i, 14, "600", "#1c1c1c")),
            Text(group.Kind == StageKind.Other ? age : $"{group.Kind.Word()}, {age}", x, y + 21, 12, "400", "#4d4d4d"), isAgainst ? Sign(x + BoxWidth / 2 - 4, y - BoxHeight / 2 + 4) : null);
    }

    private static XElement Outline(double x, double y, double inset, string? dashes) => new(Svg + "rect", Number("x", x - BoxWidth / 2 + inset), Number("y", y - BoxHeight / 2 + inset),
        Number("width", BoxWidth - 2 * inset), Number("height", BoxHeight - 2 * inset), new XAttribute("fill", inset > 0 ? "none" : "#fafafa"), new XAttribute("stroke", "#1c1c1c"),
        Number("stroke-width", 1.5), dashes is null ? null : new XAttribute("stroke-dasharray", dashes));

    private static XElement Text(string text, double x, double y, double size, string weight, string fill, string anchor = "middle") => new(Svg + "text", Number("x", x), Number("y", y), Number("font-size", size),
        new XAttribute("font-weight", weight), new XAttribute("text-anchor", anchor), new XAttribute("fill", fill), Legal(text));

    /// <summary>"!" in a circle.</summary>
    private static XElement Sign(double x, double y) => new(Svg + "g", new XAttribute("class", "sign"),
        new XElement(Svg + "circle", Number("cx", x), Number("cy", y), Number("r", 9), new XAttribute("fill", "#1c1c1c")), Text("!", x, y + 5, 14, "600", "#ffffff"));

    private static XElement Title(string text) => new(Svg + "title", Legal(text));

    private static XAttribute Number(string name, double value) => new(name, value.ToString("0.#", CultureInfo.InvariantCulture));

    /// <summary>At most two lines; the whole name stands in the title.</summary>
    private static List<string> Lines(string name)
    {
        List<string> lines = [""];
        foreach (var word in name.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries))
            if (lines[^1].Length == 0) lines[^1] = word;
            else if (lines[^1].Length + 1 + word.Length <= LineLength) lines[^1] += $" {word}";
            else lines.Add(word);
        if (lines.Count > 2) lines = [lines[0], $"{lines[1]} \u2026"];
        return [.. lines.Select(l => l.Length > LineLength ? $"{l[..(LineLength - 1)]}\u2026" : l)];
    }

    /// <summary>Without what XML cannot hold; half a letter becomes the sign for one that is lost.</summary>
    private static string Legal(string text) => string.Concat(text.EnumerateRunes().Where(r => r.Value is '\t' or '\n' or '\r' or (>= ' ' and not (0xFFFE or 0xFFFF))));
}
