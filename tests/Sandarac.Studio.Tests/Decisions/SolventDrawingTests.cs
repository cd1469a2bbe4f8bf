using System.Globalization;
using System.Xml.Linq;
using Sandarac.Materials.Solvents;
using Sandarac.Studio.Decisions.Drawing;

namespace Sandarac.Studio.Tests.Decisions;

public sealed class SolventDrawingTests
{
    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";

    private static readonly Mixture Mixed = Mixture.Parse("acetone 30 + toluene 40 + pentan-1-ol 30");

    private static readonly SolventPlot Plot = new(SolventTable.All, Mixed, [.. SolubilityRegion.All, TeasArea.Of("resin", TeasArea.ReadCorners("70 10 20; 70 20 10; 50 30 20"), "own tests")], EvaporationDrift.Of(Mixed).Value, new TeasTarget(new(60, 20, 20)));

    /// <summary>The corners of the triangle and the middle of a side, by plane geometry: an equilateral triangle 120 mm a side.</summary>
    [Fact]
    public void Known_places_on_the_triangle()
    {
        var (top, right, left, middle) = (TeasTriangle.Place(new(100, 0, 0)), TeasTriangle.Place(new(0, 100, 0)), TeasTriangle.Place(new(0, 0, 100)), TeasTriangle.Place(new(0, 50, 50)));
        Assert.Equal(120, right.X - left.X, 1e-9);
        Assert.Equal(right.Y, left.Y, 1e-9);
        Assert.Equal(120 * Math.Sqrt(3) / 2, left.Y - top.Y, 1e-9);
        Assert.Equal(((right.X + left.X) / 2, left.Y), (middle.X, middle.Y));
        var (a, b) = (TeasTriangle.Place(new(60, 20, 20)), TeasTriangle.Place(new(50, 35, 15)));
        Assert.Equal(new TeasFractions(60, 20, 20).DistanceTo(new(50, 35, 15)) * 1.2, Math.Sqrt(Math.Pow(a.X - b.X, 2) + Math.Pow(a.Y - b.Y, 2)), 1e-9);
    }

    [Fact]
    public void Every_solvent_of_the_table_that_has_parameters_is_on_the_plot_and_what_is_outside_is_named()
    {
        var triangle = XElement.Parse(TeasTriangle.Draw(Plot));
        Assert.Equal(SolventTable.All.Count(s => s.Teas is not null) + 1, Marks(triangle, "solvent"));
        Assert.Equal((1, 1, 1), (Marks(triangle, "mixture") - 1, Marks(triangle, "target") - 1, Marks(triangle, "region")));
        var hansen = XElement.Parse(HansenProjections.Draw(Plot));
        Assert.Equal(3 * SolubilityRegion.All.Count, Marks(hansen, "region"));
        Assert.Equal(3, Marks(hansen, "drift"));
        Assert.Contains("Outside the axes: formamide, water.", hansen.Value, StringComparison.Ordinal);
    }

    [Fact]
    public void Regions_that_were_not_verified_say_so() => Assert.Equal(SolubilityRegion.All.Count, XElement.Parse(HansenProjections.Draw(Plot)).Elements(Svg + "text").Count(t => t.Value.EndsWith("not verified)", StringComparison.Ordinal)));

    /// <summary>A name with a character that XML cannot hold, as a form may bring it.</summary>
    [Fact]
    public void Hostile_names_are_drawn_without_what_cannot_be()
    {
        var region = HansenSphere.Of("resin \uFFFE<script>", new(17, 6, 8), 5, "own \u0001 tests");
        Assert.Contains("resin <script>. own  tests", XElement.Parse(HansenProjections.Draw(new SolventPlot([], null, [region]))).Descendants(Svg + "title").Select(t => t.Value));
    }

    [Fact]
    public void Nothing_lies_beyond_the_sheet()
    {
        var wide = new SolventPlot(SolventTable.All, Mixture.Parse("water 50 + ethanol 50"), SolubilityRegion.All);
        foreach (var drawing in (string[])[TeasTriangle.Draw(wide), HansenProjections.Draw(wide)])
        {
            var sheet = XElement.Parse(drawing);
            double[] box = [.. ((string)sheet.Attribute("viewBox")!).Split(' ').Select(n => double.Parse(n, CultureInfo.InvariantCulture))];
            Assert.All(sheet.Descendants(Svg + "circle"), c => Assert.InRange(Shift(c, 0) + Number(c, "cx"), 0, box[2]));
            Assert.All(sheet.Descendants(Svg + "circle"), c => Assert.InRange(Shift(c, 1) + Number(c, "cy"), 0, box[3]));
        }
    }

    private static int Marks(XElement drawing, string kind) => drawing.Descendants(Svg + "g").Count(g => (string?)g.Attribute("class") == kind);

    private static double Number(XElement element, string name) => double.Parse((string)element.Attribute(name)!, CultureInfo.InvariantCulture);

    private static double Shift(XElement element, int axis) => element.Ancestors().Select(a => (string?)a.Attribute("transform")).OfType<string>().Sum(t => double.Parse(t["translate(".Length..^1].Split(' ')[axis], CultureInfo.InvariantCulture));
}
