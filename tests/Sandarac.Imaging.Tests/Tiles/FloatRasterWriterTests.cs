using Sandarac.Imaging.Formats;
using Sandarac.Imaging.Tiles;

namespace Sandarac.Imaging.Tests.Tiles;

public sealed class FloatRasterWriterTests
{
    [Fact]
    public void Roundtrip_windows_in_any_order_and_from_any_thread()
    {
        using var folder = new TemporaryFolder();
        var places = (from y in Enumerable.Range(0, 9) from x in Enumerable.Range(0, 11) select (X: x * 100, Y: y * 100)).ToArray();
        new Random(3).Shuffle(places);
        using (var writer = new FloatRasterWriter(folder["r.tif"], 1090, 870, 2, new PixelScale(0.05, ScaleOrigin.Measured)))
        {
            Parallel.ForEach(places, p => writer.WriteWindow(p.X, p.Y, Window(p.X, p.Y, Math.Min(100, 1090 - p.X), Math.Min(100, 870 - p.Y))));
            writer.Complete(TestContext.Current.CancellationToken);
        }
        using var image = ImageFile.Open(folder["r.tif"]);
        Assert.Equal((SampleFormat.Float, 2), (image.Facts.Format, image.Facts.Bands));
        Assert.Equal(0.05, image.Facts.Scale!.Value.MmPerPixel, 1e-6);
        var (read, expected) = (image.ReadWindow(0, 0, 1090, 870), Window(0, 0, 1090, 870));
        for (var b = 0; b < 2; b++) Assert.Equal(expected[b].Data, read[b].Data);
    }

    [Fact]
    public void Known_what_nobody_writes_is_no_data()
    {
        using var folder = new TemporaryFolder();
        using (var writer = new FloatRasterWriter(folder["r"], 1200, 700, 1))
        {
            writer.WriteWindow(10, 20, [new Plane(1, 1, [5])]);
            writer.Complete(TestContext.Current.CancellationToken);
        }
        using var pyramid = PyramidFile.Open(folder["r"]);
        var all = pyramid.ReadWindow(0, 0, 0, 1200, 700)[0];
        Assert.Equal(5, all[10, 20]);
        Assert.Equal(1200 * 700 - 1, all.Data.Count(float.IsNaN));
        // The one value stays itself on every smaller level: no-data does not thin it.
        Assert.Equal(5, pyramid.ReadWindow(2, 2, 5, 1, 1)[0][0, 0]);
    }

    [Fact]
    public void Invalid_without_complete_nothing_is_left()
    {
        using var folder = new TemporaryFolder();
        using (var writer = new FloatRasterWriter(folder["r"], 100, 100, 1)) writer.WriteWindow(0, 0, [new Plane(10, 10)]);
        Assert.Empty(folder.Files);
    }

    [Fact]
    public void Invalid_windows_are_refused()
    {
        using var folder = new TemporaryFolder();
        using var writer = new FloatRasterWriter(folder["r"], 100, 100, 2);
        Assert.Throws<ArgumentException>(() => writer.WriteWindow(0, 0, [new Plane(10, 10)]));
        Assert.Throws<ArgumentException>(() => writer.WriteWindow(0, 0, [new Plane(10, 10), new Plane(10, 11)]));
        Assert.Throws<ArgumentException>(() => writer.WriteWindow(91, 0, [new Plane(10, 10), new Plane(10, 10)]));
        Assert.Throws<ArgumentException>(() => writer.WriteWindow(0, -1, [new Plane(10, 10), new Plane(10, 10)]));
    }

    private static Plane[] Window(int left, int top, int width, int height)
    {
        Plane[] planes = [new(width, height), new(width, height)];
        for (var y = 0; y < height; y++)
            for (var x = 0; x < width; x++) (planes[0][x, y], planes[1][x, y]) = (left + x + 2000 * (top + y), -left - x + 0.5f * (top + y));
        return planes;
    }
}
