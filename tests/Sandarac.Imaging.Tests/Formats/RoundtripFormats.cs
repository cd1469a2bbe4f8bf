using NetVips;
using Sandarac.Imaging.Formats;
using Sandarac.Imaging.Tiles;

namespace Sandarac.Imaging.Tests.Formats;

/// <summary>Every format and way of packing gives back the samples that were put in: written by libvips, read here, in windows and in one pass.</summary>
public sealed class RoundtripFormats
{
    private const int Width = 700, Height = 530;

    public static TheoryData<string> Lossless16 => ["strips.tif", "tiles.tif", "deflate.tif", "deflate-tiles.tif", "lzw.tif", "big.tif", "image.png"];

    [Theory]
    [MemberData(nameof(Lossless16))]
    public void Roundtrip_of_16_bit_samples(string name)
    {
        using var folder = new TemporaryFolder();
        using (var rgb = TestImages.Rgb16(Width, Height))
        {
            if (name.EndsWith("png", StringComparison.Ordinal)) rgb.Pngsave(folder[name]);
            else
                rgb.Tiffsave(folder[name], tile: name.Contains("tiles", StringComparison.Ordinal), bigtiff: name.StartsWith("big", StringComparison.Ordinal),
                    compression: name.StartsWith("deflate", StringComparison.Ordinal) ? Enums.ForeignTiffCompression.Deflate : name.StartsWith("lzw", StringComparison.Ordinal) ? Enums.ForeignTiffCompression.Lzw : Enums.ForeignTiffCompression.None,
                    predictor: name.StartsWith("lzw", StringComparison.Ordinal) ? Enums.ForeignTiffPredictor.Horizontal : Enums.ForeignTiffPredictor.None);
        }
        using var image = ImageFile.Open(folder[name]);
        Assert.Equal((SampleFormat.UInt16, TileFormat.UInt16, 65535.0), (image.Facts.Format, image.TileFormat, image.Facts.FullScale));
        AssertSamples(image.ReadWindow(300, 511, 100, 19), 300, 511);
        AssertSamples(image.ReadWindow(0, 0, Width, 40), 0, 0);
        PyramidFile.Write(image, folder["pyramid"], cancellation: TestContext.Current.CancellationToken);
        using var pyramid = PyramidFile.Open(folder["pyramid"]);
        AssertSamples(pyramid.ReadWindow(0, 0, 0, Width, Height), 0, 0);
    }

    [Theory]
    [InlineData(Enums.BandFormat.Char, SampleFormat.Signed, 127)]
    [InlineData(Enums.BandFormat.Short, SampleFormat.Signed, 32767)]
    [InlineData(Enums.BandFormat.Int, SampleFormat.Signed, 2147483647)]
    [InlineData(Enums.BandFormat.Uint, SampleFormat.UInt32, 4294967295)]
    [InlineData(Enums.BandFormat.Float, SampleFormat.Float, 1)]
    public void Roundtrip_of_other_samples_goes_through_float(Enums.BandFormat stored, SampleFormat said, double fullScale)
    {
        using var folder = new TemporaryFolder();
        using (var ramp = Image.Identity(size: 100).Cast(stored)) ramp.Tiffsave(folder["a.tif"]);
        using var image = ImageFile.Open(folder["a.tif"]);
        Assert.Equal((said, TileFormat.Float32, fullScale), (image.Facts.Format, image.TileFormat, image.Facts.FullScale));
        Assert.Equal(Enumerable.Range(0, 100).Select(i => (float)i), image.ReadWindow(0, 0, 100, 1)[0].Data);
        Assert.Equal(stored is Enums.BandFormat.Int or Enums.BandFormat.Uint, image.Facts.Warnings.Any(w => w.Code == "wide-integers"));
    }

    [Theory]
    [InlineData("a.jpg", "jpeg")]
    [InlineData("a.webp", "webp")]
    [InlineData("a.avif", "avif")]
    [InlineData("jpeg-in.tif", "tiff")]
    public void Roundtrip_of_lossy_formats_keeps_a_smooth_picture(string name, string kind)
    {
        using var folder = new TemporaryFolder();
        using (var ramp = (Image.Xyz(200, 160)[0] * 1.2).Cast(Enums.BandFormat.Uchar))
        using (var rgb = ramp.Bandjoin(ramp, ramp).Copy(interpretation: Enums.Interpretation.Srgb))
        {
            if (name.EndsWith("jpg", StringComparison.Ordinal)) rgb.Jpegsave(folder[name], q: 95);
            else if (name.EndsWith("webp", StringComparison.Ordinal)) rgb.Webpsave(folder[name], q: 95);
            else if (name.EndsWith("avif", StringComparison.Ordinal)) rgb.Heifsave(folder[name], q: 95, compression: Enums.ForeignHeifCompression.Av1);
            else rgb.Tiffsave(folder[name], compression: Enums.ForeignTiffCompression.Jpeg, q: 95);
        }
        using var image = ImageFile.Open(folder[name]);
        Assert.Equal((kind, 200, 160), (image.Facts.Kind, image.Facts.Width, image.Facts.Height));
        var window = image.ReadWindow(10, 20, 150, 100);
        // A ramp holds next to nothing that these formats throw away: 4 of 255 is a loose bound for quality 95.
        for (var x = 0; x < 150; x++) Assert.InRange(window[1][x, 50], 1.2 * (x + 10) - 4, 1.2 * (x + 10) + 4);
    }

    [Fact]
    public void Invalid_windows_are_defects_of_the_caller()
    {
        using var folder = new TemporaryFolder();
        File.WriteAllBytes(folder["a.tif"], TiffBuilder.Grey8(30, 20).Build());
        using var image = ImageFile.Open(folder["a.tif"]);
        foreach (var (x, y, w, h) in new[] { (-1, 0, 2, 2), (0, 0, 31, 1), (29, 19, 2, 1), (0, 0, 0, 1), (int.MaxValue, 0, 1, 1) })
            Assert.Throws<ArgumentOutOfRangeException>(() => image.ReadWindow(x, y, w, h));
    }

    private static void AssertSamples(Plane[] planes, int left, int top)
    {
        for (var b = 0; b < 3; b++)
            for (var y = 0; y < planes[b].Height; y++)
                for (var x = 0; x < planes[b].Width; x++)
                    if (planes[b][x, y] != TestImages.Value(left + x, top + y, b)) Assert.Fail($"({left + x}, {top + y}) band {b}: {planes[b][x, y]}");
    }
}
