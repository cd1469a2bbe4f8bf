using Sandarac.Imaging.Geometry;
using Sandarac.Imaging.Tiles;
using Sandarac.Imaging.Warping;

namespace Sandarac.Imaging.Tests.Geometry;

/// <summary>One map after the other, and the quick resampling that comparisons use.</summary>
public sealed class CompositionTests
{
    private static readonly Homography First = new([0.11, 0.012, -6, -0.009, 0.105, -4, 2e-5, -3e-5, 1]);
    private static readonly Homography Second = new([-0.7, 0.4, 12, 0.5, 0.9, -3, 1e-3, 2e-3, 1]);

    /// <summary>By definition: apply the one, then the other. The order counts.</summary>
    [Fact]
    public void Known_After_is_first_the_other_then_this()
    {
        var both = Second.After(First);
        foreach (var p in Frame()) Assert.InRange(both.Apply(p).DistanceTo(Second.Apply(First.Apply(p))), 0, 1e-10);
        Assert.True(both.Apply(default).DistanceTo(First.Apply(Second.Apply(default))) > 1);
    }

    [Fact]
    public void Roundtrip_after_its_inverse_nothing_has_moved()
    {
        foreach (var p in Frame()) Assert.InRange(First.Inverse().After(First).Apply(p).DistanceTo(p), 0, 1e-9);
    }

    [Fact]
    public void Known_Then_moves_the_plane_and_keeps_the_lens()
    {
        var map = new HomographyMap(First.Coefficients, new Point2(450, 350), 570, 0.02, -0.004);
        var moved = map.Then(Second);
        Assert.Equal((map.Centre, map.Radius, map.K1, map.K2), (moved.Centre, moved.Radius, moved.K1, moved.K2));
        foreach (var p in Frame())
        {
            Assert.InRange(moved.ToPlane(p).DistanceTo(Second.Apply(map.ToPlane(p))), 0, 1e-10);
            Assert.InRange(moved.ToPixel(moved.ToPlane(p)).DistanceTo(p), 0, 1e-8);
        }
    }

    /// <summary>Where pixels are of one size both read the same level by the same kernel: the same bits. Where they are not, they must not agree.</summary>
    [Theory]
    [InlineData(1, true)]
    [InlineData(1.7, false)]
    public void Known_rough_window_is_the_window_where_scales_are_equal(double step, bool same)
    {
        using var folder = new TemporaryFolder();
        var random = new Random(5);
        TestImages.FloatPyramid(folder["p"], 700, 600, 2, (_, _, _) => random.NextDouble());
        using var source = PyramidFile.Open(folder["p"]);
        var map = new HomographyMap([Math.Cos(0.3), -Math.Sin(0.3), 20.3, Math.Sin(0.3), Math.Cos(0.3), -50.8, 0, 0, 1]);
        var grid = new PlaneGrid(new Box(0, 0, 400 * step, 300 * step), step);
        var (fine, rough) = (PlaneResampler.Window(source, map, grid, 30, 20, 200, 150), PlaneResampler.RoughWindow(source, map, grid, 30, 20, 200, 150));
        for (var b = 0; b < 2; b++)
        {
            Assert.True(fine[b].Data.Count(float.IsFinite) > 20_000);
            Assert.Equal(same, fine[b].Data.SequenceEqual(rough[b].Data));
        }
    }

    private static IEnumerable<Point2> Frame() => Enumerable.Range(0, 49).Select(i => new Point2(i % 7 * 150, i / 7 * 110));
}
