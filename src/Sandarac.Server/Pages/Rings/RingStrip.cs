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

    /// <summary>Numbers keep so many px from one another.</summary>
    private const double Room = 28;

    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";

    /// <summary>The picture as SVG in its own pixels. Each mark carries its number and place, so that a script can move it.</summary>
    public static MarkupString Draw(RingSeries series, RingStripPicture strip)
    {
        double[] places = [.. series.Content.BoundariesMm.Select(b => b * strip.PixelsPerMm)];
        var first = RingSeriesRecords.Widths(series.Content).FirstYear;
        return new MarkupString(new XElement(Svg + "svg", new XAttribute("class", "ring-strip"), Number("width", strip.Width), Number("height", strip.Height + Foot), new XAttribute("data-per-mm", strip.PixelsPerMm.ToString("R", CultureInfo.InvariantCulture)), new XAttribute("data-new-label", Say("New boundary")),
            new XAttribute("viewBox", string.Create(CultureInfo.InvariantCulture, $"0 0 {strip.Width} {strip.Height + Foot}")), new XElement(Svg + "title", Say("Boundaries on the photograph, from the oldest ring to the youngest")),
            new XElement(Svg + "image", new XAttribute("href", $"/api/ring-series/{series.Id}/strip?v={strip.PyramidSha256[..12]}"), Number("width", strip.Width), Number("height", strip.Height)),
            places.Select((x, i) => Mark(i + 1, series.Content.BoundariesMm[i], x, strip)), Numbers(places, strip.Height + 16),
            series.Content.FirstYear is null ? null : places.Skip(1).Select((x, i) => (first + i) % 10 == 0 ? Text($"{first + i}", x, strip.Height + 36) : null)).ToString(SaveOptions.DisableFormatting));
    }

    private static XElement Mark(int number, double mm, double x, RingStripPicture strip)
    {
        XElement Line(double breadth, string colour) => new(Svg + "line", Number("x1", strip.Slope * -0.3 * strip.Height), Number("x2", strip.Slope * 0.5 * strip.Height), Number("y1", strip.Height * 0.2), Number("y2", strip.Height), new XAttribute("stroke", colour), Number("stroke-width", breadth));
        return new XElement(Svg + "g", new XAttribute("class", "mark"), new XAttribute("data-number", number), new XAttribute("data-mm", mm.ToString("R", CultureInfo.InvariantCulture)), new XAttribute("transform", string.Create(CultureInfo.InvariantCulture, $"translate({x:0.##} 0)")),
            new XElement(Svg + "title", Say("Boundary {0}, {1} mm along the line", number, Decimal(mm.ToString("0.00", CultureInfo.InvariantCulture)))), Line(9, "transparent"), Line(3, "#ffffff"), Line(1.2, "#000000"));
    }

    private static IEnumerable<XElement> Numbers(double[] places, double y)
    {
        var last = double.NegativeInfinity;
        for (var i = 0; i < places.Length; i++)
            if (places[i] - last >= Room)
            {
                last = places[i];
                yield return Text($"{i + 1}", places[i], y);
            }
    }

    private static XElement Text(string text, double x, double y) => new(Svg + "text", Number("x", x), Number("y", y), Number("font-size", 13), new XAttribute("text-anchor", "middle"), text);

    private static XAttribute Number(string name, double value) => new(name, value.ToString("0.##", CultureInfo.InvariantCulture));
}
