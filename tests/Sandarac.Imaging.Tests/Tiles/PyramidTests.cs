using Sandarac.Imaging.Storing;
using Sandarac.Imaging.Tiles;

namespace Sandarac.Imaging.Tests.Tiles;

public sealed class PyramidTests
{
    [Fact]
    public void Roundtrip_keeps_every_sample_of_a_16_bit_image()
    {
        using var folder = new TemporaryFolder();
        using (var image = TestImages.Rgb16(1100, 700)) image.Tiffsave(folder["a.tif"]);
        var result = Ingest.Run(folder["a.tif"], folder["copy"], folder["pyramid"], cancellation: TestContext.Current.CancellationToken);
        Assert.Equal(File.ReadAllBytes(folder["a.tif"]), File.ReadAllBytes(folder["copy"]));
        Assert.Equal(Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(File.ReadAllBytes(folder["a.tif"]))), result.Sha256);
        using var pyramid = PyramidFile.Open(folder["pyramid"]);
        Assert.Equal([new(1100, 700), new(550, 350), new(275, 175)], pyramid.Levels);
        var bands = pyramid.ReadWindow(0, 0, 0, 1100, 700);
        for (var b = 0; b < 3; b++)
            for (var y = 0; y < 700; y++)
                for (var x = 0; x < 1100; x++) Assert.Equal(TestImages.Value(x, y, b), bands[b][x, y]);
    }
}
