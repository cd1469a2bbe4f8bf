using System.Runtime.InteropServices;
using CsCheck;
using Sandarac.Imaging.Formats;
using Sandarac.Imaging.Tests.Formats;
using Sandarac.Imaging.Tiles;

namespace Sandarac.Imaging.Tests.Tiles;

public sealed class PyramidTests
{
    /// <summary>Every level is the mean of 2 x 2 pixels of the one below, computed here the slow obvious way; odd edges and NaN included.</summary>
    [Fact]
    public void Known_levels_of_float_images_with_holes() => Gen.Select(Gen.Int[1, 1300], Gen.Int[1, 1300], Gen.Int[1, 3], Gen.Int[0, 1000]).Sample(
        (width, height, bands, seed) =>
        {
            using var folder = new TemporaryFolder();
            var random = new Random(seed);
            TestImages.FloatPyramid(folder["p"], width, height, bands, (_, _, _) => random.Next(5) == 0 ? double.NaN : random.NextDouble() * 100 - 50);
            using var pyramid = PyramidFile.Open(folder["p"]);
            AssertLevels(pyramid, (sum, n) => (float)(sum / n), 1e-5);
        },
        iter: 12, threads: 1);

    [Theory]
    [InlineData(1, 1)]
    [InlineData(512, 512)]
    [InlineData(513, 511)]
    [InlineData(1500, 1025)]
    public void Known_levels_of_integer_images(int width, int height)
    {
        using var folder = new TemporaryFolder();
        using (var rgb = TestImages.Rgb16(width, height)) rgb.Tiffsave(folder["16.tif"]);
        using (var rgb = TestImages.Rgb8(width, height)) rgb.Pngsave(folder["8.png"]);
        foreach (var name in new[] { "16.tif", "8.png" })
        {
            using var image = ImageFile.Open(folder[name]);
            PyramidFile.Write(image, folder["p"], cancellation: TestContext.Current.CancellationToken);
            using var pyramid = PyramidFile.Open(folder["p"]);
            Assert.Equal(512, PyramidFile.TileSize);
            Assert.True(pyramid.Levels[^1] is { TileColumns: 1, TileRows: 1 });
            AssertLevels(pyramid, (sum, n) => (float)Math.Floor(sum / n + 0.5), 0);
        }
    }

    [Fact]
    public void Known_tiles_are_whole_and_blank_outside_the_image()
    {
        using var folder = new TemporaryFolder();
        TestImages.FloatPyramid(folder["f"], 600, 520, 1, (x, y, _) => x + 1000 * y);
        using (var rgb = TestImages.Rgb16(600, 520)) rgb.Tiffsave(folder["a.tif"]);
        using (var image = ImageFile.Open(folder["a.tif"])) PyramidFile.Write(image, folder["i"], cancellation: TestContext.Current.CancellationToken);
        using var floats = PyramidFile.Open(folder["f"]);
        using var integers = PyramidFile.Open(folder["i"]);
        var (f, i) = (new byte[floats.TileBytes], new byte[integers.TileBytes]);
        floats.ReadTile(0, 1, 1, f);
        integers.ReadTile(0, 1, 1, i);
        var values = MemoryMarshal.Cast<byte, float>(f);
        var samples = MemoryMarshal.Cast<byte, ushort>(i);
        for (var y = 0; y < 512; y++)
            for (var x = 0; x < 512; x++)
            {
                var inside = x < 600 - 512 && y < 520 - 512;
                Assert.Equal(inside ? x + 512.5f + 1000 * (y + 512.5f) : float.NaN, values[y * 512 + x]);
                Assert.Equal(inside ? TestImages.Value(x + 512, y + 512, 2) : 0, samples[3 * (y * 512 + x) + 2]);
            }
    }

    [Fact]
    public void Invalid_tiles_are_refused()
    {
        using var folder = new TemporaryFolder();
        TestImages.FloatPyramid(folder["f"], 600, 520, 1, (x, _, _) => x);
        using var pyramid = PyramidFile.Open(folder["f"]);
        foreach (var (level, column, row) in new[] { (-1, 0, 0), (2, 0, 0), (0, 2, 0), (0, 0, 2), (1, 1, 0), (0, -1, 0) })
            Assert.Throws<ArgumentOutOfRangeException>(() => pyramid.ReadTile(level, column, row, new byte[pyramid.TileBytes]));
    }

    [Fact]
    public void Invalid_files_are_no_pyramids()
    {
        using var folder = new TemporaryFolder();
        File.WriteAllBytes(folder["a.tif"], TiffBuilder.Grey8(10, 10).Build());
        File.WriteAllBytes(folder["zeros"], new byte[10_000]);
        Assert.Throws<InvalidDataException>(() => PyramidFile.Open(folder["a.tif"]));
        Assert.Throws<InvalidDataException>(() => PyramidFile.Open(folder["zeros"]));
        Assert.Throws<FileNotFoundException>(() => PyramidFile.Open(folder["nothing"]));
    }

    /// <summary>The file is an ordinary TIFF: libvips reads its full level and its SubIFDs alike.</summary>
    [Fact]
    public void Known_other_programs_read_the_file()
    {
        using var folder = new TemporaryFolder();
        using (var rgb = TestImages.Rgb16(1300, 900)) rgb.Tiffsave(folder["a.tif"], profile: "srgb");
        using (var image = ImageFile.Open(folder["a.tif"])) PyramidFile.Write(image, folder["p.tif"], cancellation: TestContext.Current.CancellationToken);
        using var pyramid = PyramidFile.Open(folder["p.tif"]);
        using var original = NetVips.Image.NewFromFile(folder["a.tif"]);
        using var full = NetVips.Image.Tiffload(folder["p.tif"], failOn: NetVips.Enums.FailOn.Error);
        using var half = NetVips.Image.Tiffload(folder["p.tif"], subifd: 0, failOn: NetVips.Enums.FailOn.Error);
        Assert.Equal(original.WriteToMemory<ushort>(), full.WriteToMemory<ushort>());
        Assert.Equal((byte[])original.Get("icc-profile-data"), pyramid.IccProfile);
        var level = pyramid.ReadWindow(1, 0, 0, 650, 450);
        var samples = half.WriteToMemory<ushort>();
        for (var i = 0; i < samples.Length; i++) Assert.Equal(samples[i], level[i % 3].Data[i / 3]);
    }

    [Fact]
    public void Known_many_threads_read_what_one_reads()
    {
        using var folder = new TemporaryFolder();
        TestImages.FloatPyramid(folder["f"], 1600, 1100, 2, (x, y, b) => x + 3000 * y + 0.25 * b);
        using var pyramid = PyramidFile.Open(folder["f"]);
        Parallel.For(0, 200, n =>
        {
            var tile = new byte[pyramid.TileBytes];
            var (column, row) = (n % 4, n / 4 % 3);
            pyramid.ReadTile(0, column, row, tile);
            Assert.Equal(column * 512 + 0.5f + 3000 * (row * 512 + 0.5f) + 0.25f, MemoryMarshal.Cast<byte, float>(tile)[1]);
        });
    }

    private static void AssertLevels(PyramidFile pyramid, Func<double, int, float> mean, double tolerance)
    {
        for (var l = 1; l < pyramid.Levels.Count; l++)
        {
            var (below, size) = (pyramid.Levels[l - 1], pyramid.Levels[l]);
            Assert.Equal(new PyramidLevel((below.Width + 1) / 2, (below.Height + 1) / 2), size);
            var fine = pyramid.ReadWindow(l - 1, 0, 0, below.Width, below.Height);
            var coarse = pyramid.ReadWindow(l, 0, 0, size.Width, size.Height);
            for (var b = 0; b < coarse.Length; b++)
                for (var y = 0; y < size.Height; y++)
                    for (var x = 0; x < size.Width; x++)
                    {
                        var (sum, n) = (0.0, 0);
                        for (var j = 2 * y; j < Math.Min(2 * y + 2, below.Height); j++)
                            for (var i = 2 * x; i < Math.Min(2 * x + 2, below.Width); i++)
                                if (!float.IsNaN(fine[b][i, j])) (sum, n) = (sum + fine[b][i, j], n + 1);
                        var expected = n == 0 ? float.NaN : mean(sum, n);
                        if (!(expected.Equals(coarse[b][x, y]) || Math.Abs(expected - coarse[b][x, y]) <= tolerance))
                            Assert.Fail($"level {l}, band {b} ({x}, {y}): {coarse[b][x, y]}, expected {expected}");
                    }
        }
    }
}
