using System.Globalization;
using System.Xml.Linq;
using Microsoft.AspNetCore.Components;
using Sandarac.Studio.Record;
using Sandarac.Studio.Rings;
using static Sandarac.Server.Pages.Language.PageText;

namespace Sandarac.Server.Pages.Rings;

/// <summary>The photograph along a series' line with its boundaries, numbered; every tenth with its year where the series is dated.</summary>
internal static class RingStrip
{
    private const int Foot = 44;

    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";

    /// <summary>The picture as SVG in its own pixels.</summary>
    public static MarkupString Draw(RingSeries series, RingStripPicture strip)
    {
        double[] places = [.. series.Content.BoundariesMm.Select(b => b * strip.PixelsPerMm)];
        var first = RingSeriesRecords.Widths(series.Content).FirstYear;
        return new MarkupString(new XElement(Svg + "svg", new XAttribute("class", "ring-strip"), new XAttribute("role", "img"), Number("width", strip.Width), Number("height", strip.Height + Foot),
            new XAttribute("viewBox", string.Create(CultureInfo.InvariantCulture, $"0 0 {strip.Width} {strip.Height + Foot}")), new XElement(Svg + "title", Say("Boundaries on the photograph, from the oldest ring to the youngest")),
            new XElement(Svg + "image", new XAttribute("href", $"/api/ring-series/{series.Id}/strip?v={strip.PyramidSha256[..12]}"), Number("width", strip.Width), Number("height", strip.Height)),
            places.Select(x => Line(x, strip.Height, 3, "#ffffff")), places.Select(x => Line(x, strip.Height, 1.2, "#000000")),
            places.Select((x, i) => IsNumbered(i, places) ? Text($"{i + 1}", x, strip.Height + 16) : null),
            series.Content.FirstYear is null ? null : places.Skip(1).Select((x, i) => (first + i) % 10 == 0 ? Text($"{first + i}", x, strip.Height + 36) : null)).ToString(SaveOptions.DisableFormatting));
    }

    /// <summary>Numbers that have room: every one where rings are wide, else every fifth.</summary>
    private static bool IsNumbered(int i, double[] places) => (i + 1) % 5 == 0 || i == 0 || (i + 1 < places.Length && places[i + 1] - places[i] > 26 && places[i] - places[i - 1] > 26);

    private static XElement Line(double x, double height, double breadth, string colour) => new(Svg + "line", Number("x1", x), Number("x2", x), Number("y1", height * 0.2), Number("y2", height), new XAttribute("stroke", colour), Number("stroke-width", breadth));

    private static XElement Text(string text, double x, double y) => new(Svg + "text", Number("x", x), Number("y", y), Number("font-size", 13), new XAttribute("text-anchor", "middle"), text);

    private static XAttribute Number(string name, double value) => new(name, value.ToString("0.##", CultureInfo.InvariantCulture));
}
