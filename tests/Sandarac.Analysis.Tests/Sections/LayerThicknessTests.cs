using Sandarac.Analysis.Sections;

namespace Sandarac.Analysis.Tests.Sections;

/// <summary>Witness: plane geometry.</summary>
public class LayerThicknessTests
{
    private static Boundary Line(Func<double, double> across) => new(0, [.. Enumerable.Range(0, 600).Select(i => across(i + 0.5))], 2, 0);

    [Theory]
    [InlineData(0, 20)]
    [InlineData(0.3, 20)]
    [InlineData(-1, 7)]
    public void KnownSlabIsAsThickAsItsPerpendicular(double slope, double perpendicular)
    {
        var across = perpendicular * Math.Sqrt(1 + slope * slope);
        var thickness = LayerThickness.Between(Line(u => 300 + slope * u), Line(u => 300 + slope * u + across))!;
        Assert.Equal(perpendicular, thickness.Quantile(0.5), 1e-6);
        Assert.Equal(1, thickness.Coverage);
    }

    [Fact]
    public void KnownRingIsAsThickAsItsRadiiDiffer()
    {
        // Two arcs about one middle: everywhere 30 apart.
        Boundary Arc(double r) => Line(u => 1200 - Math.Sqrt(r * r - (u - 300) * (u - 300)));
        var thickness = LayerThickness.Between(Arc(1030), Arc(1000))!;
        Assert.Equal(30, thickness.Mean, 0.05);
        Assert.True(thickness.Deviation < 0.1);
    }

    [Fact]
    public void LayerThatIsNotEverywhereHasACoverage()
    {
        var thickness = LayerThickness.Between(Line(_ => 100), Line(u => u < 150 ? 112 : 100))!;
        Assert.Equal(0.25, thickness.Coverage, 1e-9);
        Assert.Null(LayerThickness.Between(Line(_ => 100), Line(_ => 100)));
    }

    [Fact]
    public void UncertaintyCombinesItsParts()
    {
        var of = (new Boundary(0, [0], 1, 0), new Boundary(0, [0], 1, 0));
        // Two boundaries of half a pixel each; 1 % of 100; no tilt.
        Assert.Equal(Math.Sqrt(0.5 + 1), LayersFigures.Uncertainty(100, of, 0.01, 0, 0), 1e-9);
        // A step ten pixels wide leaves a quarter of it open; grains that displace it by one pixel add 1.96 of it, and none that was measured leaves all open.
        Assert.Equal(Math.Sqrt(0.25 + 2.5 * 2.5 + 1.96 * 1.96), LayersFigures.Uncertainty(100, (new Boundary(0, [0], 1, 0), new Boundary(0, [0], 10, 1)), 0, 0, 0), 1e-9);
        Assert.Equal(double.PositiveInfinity, new Boundary(0, [0], double.NaN, 0).Offset);
        // 30 degrees give or take 5: cos 25 - cos 30 of 100 pixels alone exceeds three.
        Assert.InRange(LayersFigures.Uncertainty(100, of, 0, 30, 5), 100 * (Math.Cos(25 * Math.PI / 180) - Math.Cos(30 * Math.PI / 180)), 5);
    }
}
