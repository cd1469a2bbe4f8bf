using System.Globalization;
using System.Text.Json;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Imaging.Tests.Geometry;

public sealed class WarpedMapTests
{
    private static readonly Box Area = new(10, 20, 100, 60);
    private static readonly HomographyMap Base = new([0.11, 0.012, -6, -0.009, 0.105, -4, 2e-5, -3e-5, 1], new Point2(450, 350), 570, 0.02, -0.004);
    private static readonly double[] Right = [.. Enumerable.Range(0, 56).Select(k => 1.5 * Math.Sin(1.7 * k))];
    private static readonly double[] Down = [.. Enumerable.Range(0, 56).Select(k => 1.2 * Math.Cos(2.3 * k))];

    private static WarpedMap Bent => new(Base, Area, 5, 4, Right, Down);

    /// <summary>References/Bending: SciPy's B-splines; only rounding may differ.</summary>
    [Fact]
    public void Known_bending_is_the_tensor_product_of_B_splines()
    {
        var rows = File.ReadLines(Path.Combine(AppContext.BaseDirectory, "References", "Bending", "bending.csv")).Skip(1)
            .Select(l => l.Split(',').Select(v => double.Parse(v, CultureInfo.InvariantCulture)).ToArray()).ToList();
        Assert.Equal(60, rows.Count);
        foreach (var row in rows) Assert.InRange(Bent.Bending(new Point2(row[0], row[1])).DistanceTo(new Point2(row[2], row[3])), 0, 1e-12);
    }

    /// <summary>B-splines of equal coefficients are that coefficient everywhere (partition of unity; de Boor 1978): a plain shift, also outside the rectangle.</summary>
    [Fact]
    public void Known_equal_coefficients_shift()
    {
        var map = new WarpedMap(Base, Area, 5, 4, [.. Right.Select(_ => 2.5)], [.. Down.Select(_ => -0.75)]);
        foreach (var place in new Point2[] { new(10, 20), new(55.5, 41.25), new(110, 80), new(-40, 300) })
            Assert.InRange(map.ToPixel(place).DistanceTo(Base.ToPixel(new Point2(place.X + 2.5, place.Y - 0.75))), 0, 1e-9);
    }

    /// <summary>The steepest of these bendings changes by less than a sixth of the distance, far steeper than a panel.</summary>
    [Fact]
    public void Roundtrip_pixels_to_the_plane_and_back()
    {
        var map = new WarpedMap(Base, Area, 5, 4, [.. Right.Select(v => v / 3)], [.. Down.Select(v => v / 3)]);
        for (var y = 0; y <= 700; y += 35)
            for (var x = 0; x <= 900; x += 45)
                Assert.InRange(map.ToPixel(map.ToPlane(new Point2(x, y))).DistanceTo(new Point2(x, y)), 0, 1e-8);
    }

    /// <summary>Every place at twice its millimetres, the same pixels.</summary>
    [Fact]
    public void Roundtrip_a_scaled_map_shows_the_same_pixels()
    {
        foreach (var map in new PlaneMap[] { Base, Bent })
            foreach (var mm in new Point2[] { new(12, 25), new(60, 50), new(105, 79) })
                Assert.InRange(map.Scaled(2).ToPixel(new Point2(2 * mm.X, 2 * mm.Y)).DistanceTo(map.ToPixel(mm)), 0, 1e-9);
    }

    [Fact]
    public void Extreme_beyond_the_rectangle_the_bending_goes_on_as_at_its_edge()
    {
        Assert.Equal(Bent.Bending(new Point2(10, 47)), Bent.Bending(new Point2(-1e6, 47)));
        Assert.Equal(Bent.Bending(new Point2(110, 80)), Bent.Bending(new Point2(1e9, 1e9)));
    }

    [Fact]
    public void Roundtrip_map_through_JSON()
    {
        var json = JsonSerializer.Serialize<PlaneMap>(Bent);
        Assert.Contains("\"model\":\"smooth\"", json, StringComparison.Ordinal);
        var back = Assert.IsType<WarpedMap>(JsonSerializer.Deserialize<PlaneMap>(json));
        Assert.Equal(Right, back.ShiftX);
        Assert.Equal(Down, back.ShiftY);
        Assert.Equal(Bent.ToPlane(new Point2(123, 456)), back.ToPlane(new Point2(123, 456)));
        Assert.Equal(Bent.ToPixel(new Point2(23, 45)), back.ToPixel(new Point2(23, 45)));
    }

    [Fact]
    public void Invalid_another_number_of_coefficients()
    {
        Assert.Throws<ArgumentException>(() => new WarpedMap(Base, Area, 5, 5, Right, Down));
        Assert.Throws<ArgumentException>(() => new WarpedMap(Base, Area, 5, 4, Right, Down[1..]));
        Assert.Throws<ArgumentException>(() => new WarpedMap(Base, Area, 0, 4, Right[..21], Down[..21]));
        var damaged = JsonSerializer.Serialize<PlaneMap>(Bent).Replace("\"Columns\":5", "\"Columns\":6", StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => JsonSerializer.Deserialize<PlaneMap>(damaged));
    }
}
