using System.Globalization;
using System.Text.Json;
using CsCheck;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Imaging.Tests.Geometry;

public sealed class GeometryTests
{
    private static readonly string[][] Rows = [.. File.ReadLines(Path.Combine(AppContext.BaseDirectory, "References", "Geometry", "homographies.csv")).Skip(1).Select(l => l.Split(','))];

    /// <summary>References/Geometry: four exact pairs. OpenCV holds points as float32, whose steps at 256 to 512 mm are 2^-15 mm; scikit-image holds them as float64.</summary>
    [Theory]
    [InlineData("H", 1.0 / 32768)]
    [InlineData("S", 1e-8)]
    public void Known_homography_of_four_pairs(string by, double within) => Assert.InRange(LargestDistance(0, by), 0, within);

    /// <summary>References/Geometry: noisy pairs; scikit-image solves the same normalised DLT, so only rounding may differ.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public void Known_homography_of_noisy_pairs_is_the_normalised_DLT(int set) => Assert.InRange(LargestDistance(set, "S"), 0, 1e-6);

    /// <summary>References/Geometry: OpenCV minimises distances instead; the two differ by less than the pairs' own noise, 0.05 mm.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public void Known_homography_of_noisy_pairs_is_near_the_least_distances(int set) => Assert.InRange(LargestDistance(set, "H"), 0, 0.05);

    [Fact]
    public void Invalid_points_on_a_line_or_too_few()
    {
        Point2[] line = [new(0, 0), new(1, 1), new(2, 2), new(3, 3)], square = [new(0, 0), new(1, 0), new(1, 1), new(0, 1)];
        Assert.Throws<ArgumentException>(() => Homography.Fit(line, square));
        Assert.Throws<ArgumentException>(() => Homography.Fit(square[..3], square[..3]));
        Assert.Throws<ArgumentException>(() => new Homography([1, 0, 0, 0, 1, 0, 0, 0, 0]));
        Assert.Throws<ArgumentException>(() => new Homography([1, 0, 0, 0, 1, double.NaN, 0, 0, 1]));
        Assert.Throws<InvalidOperationException>(() => new Homography([1, 1, 0, 1, 1, 0, 0, 0, 1]).Inverse());
    }

    /// <summary>
    /// There and back again over a whole frame, lens distortion included: within a billionth of a pixel. Stronger barrels than these (k1 = -0.116 with k2 = -0.025) fold back before the frame's corners: r (1 + k1 r^2 + k2 r^4)
    /// never reaches them, and no ideal pixel lies there.
    /// </summary>
    [Fact]
    public void Roundtrip_pixels_to_the_plane_and_back() => Gen.Select(Gen.Double[0, 6000], Gen.Double[0, 4000], Gen.Double[-0.1, 0.12], Gen.Double[-0.02, 0.03]).Sample((x, y, k1, k2) =>
    {
        var map = new HomographyMap([0.071, 0.0013, -21, -0.0009, 0.0702, -18.5, 1.1e-6, -2.3e-6, 1], new Point2(2990, 2010), 3600, k1, k2);
        var pixel = new Point2(x, y);
        Assert.InRange(map.ToPixel(map.ToPlane(pixel)).DistanceTo(pixel), 0, 1e-9);
    });

    [Fact]
    public void Roundtrip_map_through_JSON()
    {
        PlaneMap map = new HomographyMap([0.071, 0.0013, -21, -0.0009, 0.0702, -18.5, 1.1e-6, -2.3e-6, 1], new Point2(2990, 2010), 3600, 0.02, -0.001);
        var json = JsonSerializer.Serialize(map);
        Assert.Contains("\"model\":\"homography\"", json, StringComparison.Ordinal);
        var back = JsonSerializer.Deserialize<PlaneMap>(json)!;
        Assert.Equal(map.ToPlane(new Point2(123, 456)), back.ToPlane(new Point2(123, 456)));
        Assert.Equal(map.ToPixel(new Point2(23, 45)), back.ToPixel(new Point2(23, 45)));
    }

    /// <summary>Brown's model by hand: k1 = 0.1 at r = 1 moves a point a tenth outward.</summary>
    [Fact]
    public void Known_distortion_at_one_radius()
    {
        var map = new HomographyMap([1, 0, 0, 0, 1, 0, 0, 0, 1], new Point2(100, 100), 50, 0.1);
        Assert.Equal(new Point2(155, 100), map.ToPixel(new Point2(150, 100)));
        Assert.InRange(map.ToPlane(new Point2(155, 100)).DistanceTo(new Point2(150, 100)), 0, 1e-9);
    }

    private static double LargestDistance(int set, string by)
    {
        var pairs = Rows.Where(r => r[0] == set.ToString(CultureInfo.InvariantCulture)).Select(r => r[1..].Select(v => double.Parse(v, CultureInfo.InvariantCulture)).ToArray()).ToArray();
        var theirs = new Homography([.. Rows.Single(r => r[0] == by && r[1] == set.ToString(CultureInfo.InvariantCulture))[2..].Select(v => double.Parse(v, CultureInfo.InvariantCulture))]);
        var ours = Homography.Fit([.. pairs.Select(p => new Point2(p[0], p[1]))], [.. pairs.Select(p => new Point2(p[2], p[3]))]);
        Assert.True(pairs.Length >= 4);
        return pairs.Max(p => ours.Apply(new Point2(p[0], p[1])).DistanceTo(theirs.Apply(new Point2(p[0], p[1]))));
    }
}
