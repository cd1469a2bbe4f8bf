using System.Globalization;
using System.Xml.Linq;
using Sandarac.Analysis.Sections.Drawn;

namespace Sandarac.Analysis.Tests.Sections;

public class StratigraphyTests
{
    private static readonly DrawnSample Sample = new("S1", "cloud, 412 mm from left", [
        new("1", LayerKind.Ground, "chalk & glue", 100, Colour: "#e8e0d0"), new("2", LayerKind.Underdrawing, "carbon black", 2, Coverage: 0.4), new("3a", LayerKind.Varnish, "resin", 1, 0.5, 1.5), new("3b", LayerKind.Varnish, "resin", 1),
    ]);

    private static IEnumerable<XElement> Of(string svg, string name) => XDocument.Parse(svg).Descendants().Where(e => e.Name.LocalName == name);

    private static double Number(XElement e, string attribute) => double.Parse(e.Attribute(attribute)!.Value, CultureInfo.InvariantCulture);

    [Fact]
    public void LayersAreDrawnToOneScale()
    {
        var other = new DrawnSample("S2", "sand", [new("1", LayerKind.Ground, "chalk", 50)]);
        var grounds = Of(Stratigraphy.Svg([Sample, other]), "rect").Where(r => r.Attribute("fill")!.Value == "url(#hatch-ground)" && Number(r, "height") > 16).Select(r => Number(r, "height")).ToArray();
        Assert.Equal(2, grounds.Length);
        Assert.Equal(2, grounds[0] / grounds[1], 0.001);
    }

    [Fact]
    public void LabelsDoNotLieOverOneAnother()
    {
        double[] at = [.. Of(Stratigraphy.Svg([Sample]), "text").Where(t => t.Elements().Any()).Select(t => Number(t, "y")).Order()];
        Assert.Equal(4, at.Length);
        Assert.All(at.Zip(at.Skip(1)), pair => Assert.True(pair.Second - pair.First >= 29));
    }

    [Fact]
    public void TheLegendStaysWithinTheDrawing()
    {
        var svg = Stratigraphy.Svg([new DrawnSample("S1", "", [.. Enum.GetValues<LayerKind>().Select((kind, i) => new DrawnLayer($"{i + 1}", kind, "", 10))])]);
        var (width, height) = (Number(XDocument.Parse(svg).Root!, "width"), Number(XDocument.Parse(svg).Root!, "height"));
        var entries = Of(svg, "rect").Where(r => r.Attribute("width")!.Value == "26").ToArray();
        Assert.Equal(9, entries.Length);
        Assert.All(entries, e => Assert.True(Number(e, "x") + 48 < width && Number(e, "y") + 16 < height));
    }

    [Fact]
    public void TextIsEscapedAndNothingToDrawIsRefused()
    {
        Assert.Contains("chalk &amp; glue", Stratigraphy.Svg([Sample]), StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => Stratigraphy.Svg([]));
        Assert.Throws<ArgumentException>(() => Stratigraphy.Svg([new DrawnSample("S", "", [new("1", LayerKind.Paint, "", double.NaN)])]));
    }
}
