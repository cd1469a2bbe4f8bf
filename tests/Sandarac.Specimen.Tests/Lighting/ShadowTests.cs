using Sandarac.Specimen.Layers;
using Sandarac.Specimen.Lighting;

namespace Sandarac.Specimen.Tests.Lighting;

/// <summary>Trigonometry: a wall of height h throws a shadow of length h / tan(elevation).</summary>
public class ShadowTests
{
    private const float WallUm = 400;

    [Theory]
    [InlineData(270, 15)]
    [InlineData(90, 15)]
    [InlineData(0, 15)]
    [InlineData(180, 15)]
    [InlineData(270, 10)]
    [InlineData(90, 25)]
    public void A_wall_throws_a_shadow_as_long_as_its_height_over_the_tangent(double azimuth, double elevation)
    {
        var grid = new PlaneGrid(150);
        var across = azimuth is 90 or 270;
        var middle = across ? grid.Width / 2 : grid.Height / 2;
        // The wall fills the half that faces the lamp.
        var lampIsLow = azimuth is 270 or 0;
        var height = new float[grid.Count];
        for (var y = 0; y < grid.Height; y++)
            for (var x = 0; x < grid.Width; x++)
                if ((across ? x : y) < middle == lampIsLow) height[y * grid.Width + x] = WallUm;
        var relief = new Relief(grid, height, new Lamp(azimuth, elevation));
        var dark = 0.0;
        for (var d = -30; d < 30; d++) dark += 1 - (across ? relief.Lit(middle + d, 40) : relief.Lit(40, middle + d));
        var expected = WallUm / 1000 / Math.Tan(elevation * Math.PI / 180);
        // Half a pixel for the wall's face between two grid points, and the penumbra's own asymmetry.
        Assert.InRange(dark * grid.MmPerPixel, expected - 0.6 * grid.MmPerPixel, expected + 0.6 * grid.MmPerPixel);
    }

    [Fact]
    public void A_flat_place_is_lit_alike_from_all_sides()
    {
        var grid = new PlaneGrid(40);
        foreach (var azimuth in new[] { 0, 45, 90, 135, 180, 225, 270, 315 })
        {
            var relief = new Relief(grid, new float[grid.Count], new Lamp(azimuth, 15));
            Assert.Equal(1, relief.At(100, 100).Diffuse, 5);
        }
    }

    [Fact]
    public void A_slope_towards_the_lamp_is_brighter_by_the_ratio_of_cosines()
    {
        // A slope of 0.1 facing a lamp at 30 degrees: cos(60 - 5.7106) / cos(60) = 1.16738, by Lambert's law.
        var grid = new PlaneGrid(100);
        var height = new float[grid.Count];
        for (var i = 0; i < height.Length; i++) height[i] = i % grid.Width * grid.MmPerPixel * 1000 * 0.1f;
        var (diffuse, _) = new Relief(grid, height, new Lamp(270, 30)).At(200, 200);
        Assert.Equal(1.16738, diffuse, 3);
    }
}
