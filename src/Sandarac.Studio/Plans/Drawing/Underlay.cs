using System.Xml.Linq;
using Sandarac.Analysis.Lights;
using Sandarac.Imaging;
using Sandarac.Imaging.Display;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Studio.Plans.Drawing;

/// <summary>The picture under a plan: any aligned light or reading, made so pale that hatches speak.</summary>
/// <param name="Label">What it shows.</param>
/// <param name="Jpeg">The picture.</param>
/// <param name="Extent">Where it lies, mm on the plane.</param>
internal sealed record Underlay(string Label, byte[] Jpeg, Box Extent)
{
    /// <summary>How much of the picture's darkness is left. Black paint becomes a light grey, too dark still for the paler inks: lines over a picture have white beside them.</summary>
    public const double Strength = 0.3;

    /// <summary>Longest side, pixels: 200 to the inch on a sheet of paper, enough for what lies under hatches.</summary>
    private const int Longest = 1500;

    /// <summary>The picture that was asked for.</summary>
    /// <param name="studio">The studio.</param>
    /// <param name="plan">The plan.</param>
    /// <param name="wanted">A layer's id, a light's code, "none" for an outline drawing; null for the state's own photograph, else visible light.</param>
    /// <returns>Null for an outline drawing, also when nothing is aligned and nothing was asked for.</returns>
    /// <exception cref="InputProblem">Nothing of that name lies on the plane ("unknown-layer").</exception>
    public static Underlay? Of(OpenStudio studio, ConditionPlan plan, string? wanted)
    {
        if (wanted == "none") return null;
        var layers = new Layers(studio).Of(plan.Painting.Id).Where(l => l.OnPlane).ToList();
        var own = plan.State?.Content.Photographs.Select(id => layers.FirstOrDefault(l => !l.IsReading && l.PhotographId == id)).FirstOrDefault(l => l is not null);
        var layer = string.IsNullOrEmpty(wanted) ? own ?? layers.FirstOrDefault(l => !l.IsReading && l.Light == Light.Visible.Code) ?? layers.FirstOrDefault(l => !l.IsReading)
            : layers.FirstOrDefault(l => l.Id == wanted) ?? layers.FirstOrDefault(l => !l.IsReading && l.Light == wanted) ?? throw new InputProblem("unknown-layer", wanted, $"Nothing of this painting that lies on the plane is called \"{wanted}\".", "Name a light by its code, a layer by its id, or \"none\".");
        if (layer is null) return null;
        var window = layer.IsReading ? new ContrastWindow(layer.Pyramid.Low, layer.Pyramid.High) : (ContrastWindow?)null;
        return new Underlay($"{layer.Light} {layer.Label}".Trim(), studio.Pyramids.Read(layer.Pyramid.Sha256, f => DisplayEncoder.Thumbnail(f, Longest, window, DisplayFormat.Jpeg, 80)), layer.Extent);
    }

    /// <summary>The picture on the sheet, cut at the face's edge.</summary>
    public IEnumerable<XElement> Draw(FaceOnSheet face)
    {
        // Several plans may stand on one page: equal names clip to equal sizes.
        var name = $"face-{Ink.Text(face.Width)}-{Ink.Text(face.Height)}";
        yield return Ink.Element("clipPath", new XAttribute("id", name), Ink.Element("rect", Ink.Mm("width", face.Width), Ink.Mm("height", face.Height)));
        yield return Ink.Element("g", new XAttribute("clip-path", $"url(#{name})"), Ink.Element("image", Ink.Mm("x", Extent.Left * face.Scale), Ink.Mm("y", Extent.Top * face.Scale), Ink.Mm("width", Extent.Width * face.Scale), Ink.Mm("height", Extent.Height * face.Scale),
            new XAttribute("preserveAspectRatio", "none"), new XAttribute("opacity", Ink.Text(Strength)), new XAttribute("href", $"data:image/jpeg;base64,{Convert.ToBase64String(Jpeg)}")));
    }
}
