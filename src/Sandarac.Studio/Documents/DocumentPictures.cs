using Sandarac.Analysis.Lights;
using Sandarac.Imaging.Display;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Documents;

/// <summary>The document's pictures: small copies inside the page, each with a bar in millimetres, or with the reason why it has none.</summary>
internal sealed class DocumentPictures(OpenStudio studio, DocumentContent content)
{
    private const int Small = 560;
    private const int Large = 1400;

    /// <summary>The painting in visible light, as large as the page; null when no photograph shows it.</summary>
    public Markup? Frontispiece()
    {
        var photograph = content.Photographs.Where(p => p.Subject == PhotographSubject.Painting && content.LayerOf(p) is not null)
            .OrderBy(p => p.Light == Light.Visible.Code ? 0 : 1).ThenBy(p => content.LayerOf(p)!.OnPlane ? 0 : 1).FirstOrDefault();
        if (photograph is null) return null;
        var layer = content.LayerOf(photograph)!;
        return Html.Of($"<figure class=\"frontispiece\"><div class=\"plate\">{Image(layer, Large, photograph.FileName)}{Bar(layer, photograph)}</div></figure>");
    }

    /// <summary>A photograph.</summary>
    public Markup Of(Photograph photograph) => content.LayerOf(photograph) is { } layer
        ? Html.Of($"{Image(layer, Small, photograph.FileName)}{Bar(layer, photograph)}") : Html.Of($"<p class=\"note\">No picture.</p>");

    /// <summary>A reading's raster.</summary>
    public Markup Of(Layer layer) => Html.Of($"{Image(layer, Small, layer.Label)}{Bar(layer, null)}");

    private Markup Image(Layer layer, int longest, string alt)
    {
        var window = layer.IsReading ? new ContrastWindow(layer.Pyramid.Low, layer.Pyramid.High) : (ContrastWindow?)null;
        var bytes = studio.Pyramids.Read(layer.Pyramid.Sha256, f => DisplayEncoder.Thumbnail(f, longest, window));
        var factor = Math.Min(1, longest / (double)Math.Max(layer.Pyramid.Width, layer.Pyramid.Height));
        var (width, height) = ((int)Math.Round(layer.Pyramid.Width * factor), (int)Math.Round(layer.Pyramid.Height * factor));
        return Html.Of($"<img width=\"{width}\" height=\"{height}\" alt=\"{alt}\" src=\"data:image/webp;base64,{Convert.ToBase64String(bytes)}\">");
    }

    private Markup Bar(Layer layer, Photograph? photograph)
    {
        if (content.WidthOf(layer, photograph) is not { } width) return Html.Of($"<p class=\"note\">No scale bar: the file states no resolution and the photograph is not on the plane.</p>");
        var rests = width.Origin switch
        {
            Imaging.ScaleOrigin.Measured => "",
            Imaging.ScaleOrigin.Distance => ", by one measured distance",
            Imaging.ScaleOrigin.Ruler => ", by a ruler in a photograph",
            Imaging.ScaleOrigin.Metadata => ", by the file's resolution tags",
            _ => ", assumed",
        };
        return ScaleBar.Svg(width.WidthMm, rests);
    }
}
