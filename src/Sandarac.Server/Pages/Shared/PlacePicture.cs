using System.Globalization;
using System.Xml.Linq;
using Microsoft.AspNetCore.Components;
using Sandarac.Server.Api;
using Sandarac.Studio;
using Sandarac.Studio.Record;
using static Sandarac.Server.Pages.Language.RecordText;

namespace Sandarac.Server.Pages.Shared;

/// <summary>A place on the small picture of a painting.</summary>
/// <param name="Label">What stands beside it, short.</param>
/// <param name="Name">"Sample 2".</param>
/// <param name="X">mm from the left edge.</param>
/// <param name="Y">mm from the upper edge.</param>
/// <param name="Address">Where it leads, below the painting's pages.</param>
/// <param name="IsChosen">Whether it is the one that the page shows.</param>
internal sealed record PlaceMark(string Label, string Name, double X, double Y, string Address, bool IsChosen);

/// <summary>A small picture of the painting with places on it, each a link to its record.</summary>
internal static class PlacePicture
{
    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";

    /// <summary>The picture as SVG, mm as its unit; empty when nothing is on the plane.</summary>
    public static MarkupString Draw(OpenStudio studio, Painting painting, IEnumerable<PlaceMark> marks)
    {
        if (painting.WidthMm <= 0 || new Layers(studio).Of(painting.Id).FirstOrDefault(l => l.OnPlane && !l.IsReading) is not { } layer) return default;
        var size = Math.Max(painting.WidthMm, painting.HeightMm) / 34;
        var picture = new XElement(Svg + "svg", new XAttribute("class", "places"), new XAttribute("viewBox", string.Create(CultureInfo.InvariantCulture, $"0 0 {painting.WidthMm:0.#} {painting.HeightMm:0.#}")),
            new XElement(Svg + "image", new XAttribute("href", $"/api/layers/{layer.Id}/thumbnail?v={LayerShape.VersionOf(layer.Pyramid)}"), new XAttribute("preserveAspectRatio", "none"), Mm("x", layer.Extent.Left), Mm("y", layer.Extent.Top),
                Mm("width", layer.Extent.Width), Mm("height", layer.Extent.Height)),
            marks.Select(m => Marker(painting, m, size)));
        return new MarkupString(picture.ToString(SaveOptions.DisableFormatting));
    }

    private static XElement Marker(Painting painting, PlaceMark mark, double size)
    {
        var right = mark.X < painting.WidthMm * 0.8;
        return new XElement(Svg + "a", new XAttribute("href", $"/paintings/{painting.Id}/{mark.Address}"), new XAttribute("class", mark.IsChosen ? "marker chosen" : "marker"),
            mark.IsChosen ? new XAttribute("aria-current", "true") : null, new XElement(Svg + "title", $"{mark.Name}, {Told(Place.Text(mark.X, mark.Y, painting.HeightMm))}"),
            new XElement(Svg + "circle", Mm("cx", mark.X), Mm("cy", mark.Y), Mm("r", size / 2), new XAttribute("fill", mark.IsChosen ? "#000000" : "#ffffff"), new XAttribute("stroke", mark.IsChosen ? "#ffffff" : "#000000"), Mm("stroke-width", size / 6)),
            new XElement(Svg + "text", Mm("x", right ? mark.X + size : mark.X - size), Mm("y", mark.Y + size * 0.5), Mm("font-size", size * 1.5), new XAttribute("font-weight", 600), new XAttribute("text-anchor", right ? "start" : "end"),
                new XAttribute("fill", "#000000"), new XAttribute("stroke", "#ffffff"), Mm("stroke-width", size / 2.5), new XAttribute("paint-order", "stroke"), Short(mark.Label)));
    }

    private static string Short(string number) => string.Concat(number.EnumerateRunes().Take(12));

    private static XAttribute Mm(string name, double value) => new(name, value.ToString("0.##", CultureInfo.InvariantCulture));
}
