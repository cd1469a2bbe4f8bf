using Sandarac.Imaging.Formats;
using Sandarac.Imaging.Geometry;
using Sandarac.Imaging.Tiles;
using Sandarac.Imaging.Warping;

namespace Sandarac.Imaging.Tests.Warping;

public sealed class ResamplerTests
{
    private static readonly HomographyMap Tilted = new([0.11, 0.012, -6, -0.009, 0.105, -4, 2e-5, -3e-5, 1], new Point2(450, 350), 570, 0.02, -0.004);

    /// <summary>Keys (1981), section III: cubic convolution with a = -1/2 reproduces polynomials of the second degree, whatever the sampling positions.</summary>
    [Fact]
    public void Known_quadratic_pictures_come_out_exact_through_any_map()
    {
        static double F(double x, double y) => 3 + 0.02 * x - 0.01 * y + 1e-4 * x * x - 5e-5 * x * y + 2e-5 * y * y;
        using var folder = new TemporaryFolder();
        TestImages.FloatPyramid(folder["p"], 900, 700, 1, (x, y, _) => F(x, y));
        using var source = PyramidFile.Open(folder["p"]);
        var grid = PlaneGrid.Covering(new Box(5, 5, 80, 60), 0.1);
        var plane = PlaneResampler.Window(source, Tilted, grid, 0, 0, grid.Width, grid.Height)[0];
        var compared = 0;
        for (var y = 0; y < grid.Height; y++)
            for (var x = 0; x < grid.Width; x++)
            {
                var p = Tilted.ToPixel(new Point2(5 + (x + 0.5) * 0.1, 5 + (y + 0.5) * 0.1));
                // Next to the border the missing samples are repeated, which no polynomial is.
                if (p.X < 2.5 || p.Y < 2.5 || p.X > 897.5 || p.Y > 697.5) continue;
                compared++;
                Assert.Equal(F(p.X, p.Y), plane[x, y], 1e-4);
            }
        Assert.True(compared > 400_000, $"{compared} pixels compared");
    }

    /// <summary>For a smooth function the error falls with the third power of the sampling step (Keys 1981): halving the step divides it by 8 and not by 4.</summary>
    [Fact]
    public void Known_error_falls_with_the_third_power_of_the_step()
    {
        var (coarse, fine) = (LargestError(40), LargestError(80));
        Assert.True(coarse / fine > 7, $"{coarse:g3} and {fine:g3}");
        Assert.True(fine < 1e-3, $"{fine:g3}");

        static double LargestError(double period)
        {
            double F(double x, double y) => Math.Sin(2 * Math.PI * x / period) * Math.Cos(2 * Math.PI * y / period + 1);
            using var folder = new TemporaryFolder();
            TestImages.FloatPyramid(folder["p"], 900, 700, 1, (x, y, _) => F(x, y));
            using var source = PyramidFile.Open(folder["p"]);
            var grid = PlaneGrid.Covering(new Box(20, 20, 30, 30), 0.1);
            var plane = PlaneResampler.Window(source, Tilted, grid, 0, 0, grid.Width, grid.Height)[0];
            var worst = 0.0;
            for (var y = 0; y < grid.Height; y++)
                for (var x = 0; x < grid.Width; x++)
                {
                    var p = Tilted.ToPixel(new Point2(20 + (x + 0.5) * 0.1, 20 + (y + 0.5) * 0.1));
                    worst = Math.Max(worst, Math.Abs(F(p.X, p.Y) - plane[x, y]));
                }
            return worst;
        }
    }

    /// <summary>Outside witness: libvips's bicubic, the same kernel, whose weights are tabulated to 1/64 pixel: on this picture within 1 of 255 of ours.</summary>
    [Fact]
    public void Known_agrees_with_the_bicubic_of_libvips()
    {
        using var folder = new TemporaryFolder();
        using var waves = ((NetVips.Image.Xyz(400, 300) / 9).Sin() * 100 + 120).Cast(NetVips.Enums.BandFormat.Uchar);
        waves.Tiffsave(folder["a.tif"]);
        using (var image = ImageFile.Open(folder["a.tif"])) PyramidFile.Write(image, folder["p"], cancellation: TestContext.Current.CancellationToken);
        using var source = PyramidFile.Open(folder["p"]);
        var map = new HomographyMap([0.1, 0.008, -1, -0.007, 0.1, 1, 0, 0, 1]);
        var grid = PlaneGrid.Covering(new Box(4, 4, 25, 20), 0.1);
        var ours = PlaneResampler.Window(source, map, grid, 0, 0, 250, 200);
        var index = new float[250 * 200 * 2];
        for (var i = 0; i < 250 * 200; i++)
        {
            // libvips counts positions from the first pixel's centre.
            var p = map.ToPixel(new Point2(4 + (i % 250 + 0.5) * 0.1, 4 + (i / 250 + 0.5) * 0.1));
            (index[2 * i], index[2 * i + 1]) = ((float)(p.X - 0.5), (float)(p.Y - 0.5));
        }
        using var places = NetVips.Image.NewFromMemory(index, 250, 200, 2, NetVips.Enums.BandFormat.Float);
        using var bicubic = NetVips.Interpolate.NewFromName("bicubic");
        using var floats = waves.Cast(NetVips.Enums.BandFormat.Float);
        using var warped = floats.Mapim(places, interpolate: bicubic);
        var theirs = warped.WriteToMemory<float>();
        var compared = 0;
        for (var i = 0; i < 250 * 200; i++)
        {
            if (index[2 * i] < 3 || index[2 * i + 1] < 3 || index[2 * i] > 396 || index[2 * i + 1] > 296) continue;
            compared++;
            Assert.InRange(ours[0].Data[i] - theirs[2 * i], -1, 1);
            Assert.InRange(ours[1].Data[i] - theirs[2 * i + 1], -1, 1);
        }
        Assert.True(compared > 40_000, $"{compared} pixels compared");
    }

    [Fact]
    public void Roundtrip_a_map_without_change_gives_the_samples_themselves()
    {
        using var folder = new TemporaryFolder();
        using (var rgb = TestImages.Rgb16(1100, 600)) rgb.Tiffsave(folder["a.tif"], profile: "srgb");
        using (var image = ImageFile.Open(folder["a.tif"])) PyramidFile.Write(image, folder["p"], cancellation: TestContext.Current.CancellationToken);
        using var source = PyramidFile.Open(folder["p"]);
        var map = new HomographyMap([0.25, 0, 0, 0, 0.25, 0, 0, 0, 1]);
        PlaneResampler.Write(source, map, PlaneGrid.For(map, new Box(0, 0, 275, 150)), folder["plane"], cancellation: TestContext.Current.CancellationToken);
        using var plane = PyramidFile.Open(folder["plane"]);
        Assert.Equal((1100, 600, TileFormat.UInt16), (plane.Width, plane.Height, plane.Format));
        Assert.Equal(source.IccProfile, plane.IccProfile);
        var (before, after) = (source.ReadWindow(0, 0, 0, 1100, 600), plane.ReadWindow(0, 0, 0, 1100, 600));
        for (var b = 0; b < 3; b++) Assert.Equal(before[b].Data, after[b].Data);
    }

    /// <summary>Any window gives the numbers of the whole, bit for bit, and so does the file that many threads write.</summary>
    [Fact]
    public void Known_numbers_do_not_depend_on_tiling_or_threads()
    {
        using var folder = new TemporaryFolder();
        var random = new Random(7);
        TestImages.FloatPyramid(folder["p"], 900, 700, 2, (_, _, _) => random.NextDouble());
        using var source = PyramidFile.Open(folder["p"]);
        foreach (var mmPerPixel in new[] { 0.1, 0.17, 0.45 })
        {
            var grid = PlaneGrid.Covering(new Box(-5, -5, 110, 90), mmPerPixel);
            var whole = PlaneResampler.Window(source, Tilted, grid, 0, 0, grid.Width, grid.Height);
            PlaneResampler.Write(source, Tilted, grid, folder["plane"], cancellation: TestContext.Current.CancellationToken);
            using var plane = PyramidFile.Open(folder["plane"]);
            var written = plane.ReadWindow(0, 0, 0, grid.Width, grid.Height);
            var (left, top, width, height) = (37, 41, 101, 97);
            var part = PlaneResampler.Window(source, Tilted, grid, left, top, width, height);
            for (var b = 0; b < 2; b++)
            {
                Assert.Equal(whole[b].Data, written[b].Data);
                for (var y = 0; y < height; y++) Assert.Equal(whole[b].Row(top + y).Slice(left, width).ToArray(), part[b].Row(y).ToArray());
            }
        }
    }

    [Fact]
    public void Known_outside_the_photograph_is_no_data()
    {
        using var folder = new TemporaryFolder();
        TestImages.FloatPyramid(folder["f"], 100, 80, 1, (_, _, _) => 7);
        using (var rgb = TestImages.Rgb8(100, 80)) (rgb + 1).Cast(NetVips.Enums.BandFormat.Uchar).Tiffsave(folder["a.tif"]);
        using (var image = ImageFile.Open(folder["a.tif"])) PyramidFile.Write(image, folder["i"], cancellation: TestContext.Current.CancellationToken);
        var map = new HomographyMap([0.1, 0, 1, 0, 0.1, 2, 0, 0, 1]);
        var grid = PlaneGrid.Covering(new Box(0, 0, 13, 12), 0.1);
        using var floats = PyramidFile.Open(folder["f"]);
        var plane = PlaneResampler.Window(floats, map, grid, 0, 0, 130, 120)[0];
        for (var y = 0; y < 120; y++)
            for (var x = 0; x < 130; x++)
            {
                var inside = x is >= 10 and < 110 && y is >= 20 and < 100;
                if (inside) Assert.Equal(7, plane[x, y], 1e-5);
                else Assert.Equal(float.NaN, plane[x, y]);
            }
        using var integers = PyramidFile.Open(folder["i"]);
        PlaneResampler.Write(integers, map, grid, folder["plane"], cancellation: TestContext.Current.CancellationToken);
        using var written = PyramidFile.Open(folder["plane"]);
        var band = written.ReadWindow(0, 0, 0, 130, 120)[0];
        Assert.Equal(0, band[9, 50]);
        Assert.Equal((TestImages.Value(3, 30, 0) + 1) % 256, band[13, 50]);
    }

    /// <summary>A chessboard of single pixels is grey from afar; plain interpolation would show false bands.</summary>
    [Theory]
    [InlineData(1.9)]
    [InlineData(2.7)]
    [InlineData(5.3)]
    public void Known_a_coarser_grid_averages_instead_of_showing_false_patterns(double coarser)
    {
        using var folder = new TemporaryFolder();
        TestImages.FloatPyramid(folder["p"], 800, 800, 1, (x, y, _) => ((int)x + (int)y) % 2 == 0 ? 0 : 100);
        using var source = PyramidFile.Open(folder["p"]);
        var map = new HomographyMap([0.1, 0, 0, 0, 0.1, 0, 0, 0, 1]);
        var grid = PlaneGrid.Covering(new Box(10, 10, 60, 60), 0.1 * coarser);
        var plane = PlaneResampler.Window(source, map, grid, 0, 0, grid.Width, grid.Height)[0];
        Assert.InRange(plane.Data.Min(), 45, 50);
        Assert.InRange(plane.Data.Max(), 50, 55);
    }

    [Theory]
    [InlineData(0.1693, 0.16)]
    [InlineData(0.16, 0.16)]
    [InlineData(0.0999, 0.09)]
    [InlineData(1, 1)]
    [InlineData(0.0215, 0.02)]
    public void Known_grid_steps_are_preferred_numbers(double scale, double step) => Assert.Equal(step, PlaneGrid.RoundDown(scale), 1e-12);

    [Fact]
    public void Known_grid_of_a_photograph_covers_the_face_at_its_own_scale()
    {
        var map = new HomographyMap([0.1693, 0, -3, 0, 0.1693, -4, 0, 0, 1]);
        Assert.Equal(0.1693, PlaneGrid.MeanScale(map, new Box(0, 0, 412, 518)), 1e-9);
        var grid = PlaneGrid.For(map, new Box(0, 0, 412, 518));
        Assert.Equal((0.16, 2575, 3238), (grid.MmPerPixel, grid.Width, grid.Height));
        Assert.True(grid.ExtentMm.Right >= 412 && grid.ExtentMm.Bottom >= 518);
    }

    [Fact]
    public void Invalid_cancelled_work_leaves_nothing()
    {
        using var folder = new TemporaryFolder();
        TestImages.FloatPyramid(folder["p"], 100, 80, 1, (_, _, _) => 7);
        using var source = PyramidFile.Open(folder["p"]);
        using var cancelled = new CancellationTokenSource();
        cancelled.Cancel();
        Assert.ThrowsAny<OperationCanceledException>(() => PlaneResampler.Write(source, Tilted, PlaneGrid.Covering(new Box(0, 0, 10, 10), 0.1), folder["plane"], cancellation: cancelled.Token));
        Assert.Equal(["p"], folder.Files);
    }
}
