using System.Globalization;
using System.Xml.Linq;
using Microsoft.AspNetCore.Components;
using Sandarac.Server.Api;
using Sandarac.Studio;
using Sandarac.Studio.Record;
using static Sandarac.Server.Pages.Language.PageText;
using static Sandarac.Server.Pages.Language.RecordText;

namespace Sandarac.Server.Pages.Sections;

/// <summary>A small picture of the painting with the places of its samples, each a link to its record.</summary>
internal static class PlacePicture
{
    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";

    /// <summary>The picture as SVG, mm as its unit; empty when nothing is on the plane.</summary>
    public static MarkupString Draw(OpenStudio studio, Painting painting, IEnumerable<Sample> samples, Guid? chosen)
    {
        if (painting.WidthMm <= 0 || new Layers(studio).Of(painting.Id).FirstOrDefault(l => l.OnPlane && !l.IsReading) is not { } layer) return default;
        var size = Math.Max(painting.WidthMm, painting.HeightMm) / 34;
        var picture = new XElement(Svg + "svg", new XAttribute("class", "places"), new XAttribute("viewBox", string.Create(CultureInfo.InvariantCulture, $"0 0 {painting.WidthMm:0.#} {painting.HeightMm:0.#}")),
            new XElement(Svg + "image", new XAttribute("href", $"/api/layers/{layer.Id}/thumbnail?v={LayerShape.VersionOf(layer.Pyramid)}"), new XAttribute("preserveAspectRatio", "none"), Mm("x", layer.Extent.Left), Mm("y", layer.Extent.Top),
                Mm("width", layer.Extent.Width), Mm("height", layer.Extent.Height)),
            samples.Where(s => s.Content.X is not null).Select(s => Marker(painting, s, size, s.Id == chosen)));
        return new MarkupString(picture.ToString(SaveOptions.DisableFormatting));
    }

    private static XElement Marker(Painting painting, Sample sample, double size, bool isChosen)
    {
        var (x, y) = (sample.Content.X!.Value, sample.Content.Y!.Value);
        var right = x < painting.WidthMm * 0.8;
        return new XElement(Svg + "a", new XAttribute("href", $"/paintings/{painting.Id}/sections?sample={sample.Id}"), new XAttribute("class", isChosen ? "marker chosen" : "marker"),
            isChosen ? new XAttribute("aria-current", "true") : null, new XElement(Svg + "title", Say("Sample {0}, {1}", sample.Content.Number, Told(Place.Text(x, y, painting.HeightMm)))),
            new XElement(Svg + "circle", Mm("cx", x), Mm("cy", y), Mm("r", size / 2), new XAttribute("fill", isChosen ? "#000000" : "#ffffff"), new XAttribute("stroke", isChosen ? "#ffffff" : "#000000"), Mm("stroke-width", size / 6)),
            new XElement(Svg + "text", Mm("x", right ? x + size : x - size), Mm("y", y + size * 0.5), Mm("font-size", size * 1.5), new XAttribute("font-weight", 600), new XAttribute("text-anchor", right ? "start" : "end"),
                new XAttribute("fill", "#000000"), new XAttribute("stroke", "#ffffff"), Mm("stroke-width", size / 2.5), new XAttribute("paint-order", "stroke"), Short(sample.Content.Number)));
    }

    private static string Short(string number) => string.Concat(number.EnumerateRunes().Take(12));

    private static XAttribute Mm(string name, double value) => new(name, value.ToString("0.##", CultureInfo.InvariantCulture));
}
