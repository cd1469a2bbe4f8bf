using System.Globalization;
using System.Xml.Linq;
using Sandarac.Studio.Documents.Model;

namespace Sandarac.Studio.Documents.Building;

/// <summary>Puts a drawing that was made for a page into a document.</summary>
internal static class Drawing
{
    /// <summary>An SVG element with a view box as a picture; its links lead to places of a page and are taken off.</summary>
    public static DrawingPicture Of(string svg)
    {
        var root = XElement.Parse(svg);
        var box = root.Attribute("viewBox")!.Value.Split(' ').Select(v => double.Parse(v, CultureInfo.InvariantCulture)).ToArray();
        foreach (var link in root.Descendants().Where(e => e.Name.LocalName == "a").ToList()) link.Name = link.Name.Namespace + "g";
        foreach (var address in root.Descendants().Attributes("href").ToList()) address.Remove();
        var text = root.ToString(SaveOptions.DisableFormatting);
        return new DrawingPicture(box[2], box[3], () => text);
    }
}
