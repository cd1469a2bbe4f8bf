using System.Globalization;
using System.Xml.Linq;
using Sandarac.Studio.Documents.Model;

namespace Sandarac.Studio.Documents.Building;

/// <summary>Puts a drawing that was made for a page into a document.</summary>
internal static class Drawing
{
    /// <summary>An SVG element as a picture of the size that its width and height give, pixels or mm. Its links lead to places of a page and are taken off; pictures within it stay.</summary>
    public static DrawingPicture Of(string svg)
    {
        var root = XElement.Parse(svg);
        foreach (var link in root.Descendants().Where(e => e.Name.LocalName == "a").ToList())
        {
            link.Name = link.Name.Namespace + "g";
            link.Attribute("href")?.Remove();
        }
        var text = root.ToString(SaveOptions.DisableFormatting);
        return new DrawingPicture(Size(root, "width"), Size(root, "height"), () => text);
    }

    private static double Size(XElement root, string side)
    {
        var (text, isMm) = root.Attribute(side)!.Value is var given && given.EndsWith("mm", StringComparison.Ordinal) ? (given[..^2], true) : (given, false);
        return double.Parse(text, CultureInfo.InvariantCulture) * (isMm ? 96 / 25.4 : 1);
    }
}
