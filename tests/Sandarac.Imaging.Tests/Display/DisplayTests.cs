using NetVips;
using Sandarac.Imaging.Display;
using Sandarac.Imaging.Formats;
using Sandarac.Imaging.Tiles;

namespace Sandarac.Imaging.Tests.Display;

public sealed class DisplayTests
{
    [Fact]
    public void Known_untagged_pixels_are_shown_as_they_are()
    {
        byte[] pixels = [10, 20, 30, 200, 100, 50];
        Assert.Equal(pixels, Decoded(DisplayEncoder.Encode(pixels, 2, 1, 3, null, DisplayFormat.Png)));
    }

    /// <summary>Display P3 to sRGB by the published primaries and white (SMPTE RP 431-2 and D65; IEC 61966-2-1 for sRGB, whose curve both share), computed here.</summary>
    [Theory]
    [InlineData(200, 100, 50)]
    [InlineData(90, 140, 110)]
    [InlineData(128, 128, 128)]
    [InlineData(60, 70, 150)]
    public void Known_tagged_colours_go_through_their_profile(byte r, byte g, byte b)
    {
        using var folder = new TemporaryFolder();
        using (var black = (Image.Black(4, 4, 3) + new double[] { r, g, b }).Cast(Enums.BandFormat.Uchar).Copy(interpretation: Enums.Interpretation.Srgb)) black.Tiffsave(folder["a.tif"], profile: "p3");
        using var image = ImageFile.Open(folder["a.tif"]);
        var shown = Decoded(DisplayEncoder.Encode([r, g, b], 1, 1, 3, image.IccProfile, DisplayFormat.Png));
        var expected = P3ToSrgb(r, g, b);
        for (var i = 0; i < 3; i++) Assert.InRange(shown[i], expected[i] - 2, expected[i] + 2);
        PyramidFile.Write(image, folder["p"], cancellation: TestContext.Current.CancellationToken);
        using var pyramid = PyramidFile.Open(folder["p"]);
        var thumbnail = Decoded(DisplayEncoder.Thumbnail(pyramid, format: DisplayFormat.Png));
        Assert.Equal(shown, thumbnail[..3]);
    }

    [Fact]
    public void Known_a_profile_that_does_not_fit_the_pixels_is_not_fatal()
    {
        byte[] pixels = [10, 20, 30];
        Assert.Equal(pixels, Decoded(DisplayEncoder.Encode(pixels, 1, 1, 3, [1, 2, 3, 4], DisplayFormat.Png)));
    }

    [Theory]
    [InlineData(DisplayFormat.Webp)]
    [InlineData(DisplayFormat.Jpeg)]
    [InlineData(DisplayFormat.Png)]
    public void Roundtrip_thumbnails_of_every_depth(DisplayFormat format)
    {
        using var folder = new TemporaryFolder();
        TestImages.FloatPyramid(folder["f"], 1500, 900, 1, (x, _, _) => x < 100 ? double.NaN : x / 10);
        using (var ramp = (Image.Xyz(1500, 900)[0] * 40).Cast(Enums.BandFormat.Ushort)) ramp.Tiffsave(folder["a.tif"]);
        using (var image = ImageFile.Open(folder["a.tif"])) PyramidFile.Write(image, folder["i"], cancellation: TestContext.Current.CancellationToken);
        foreach (var (name, window) in new (string, ContrastWindow)[] { ("f", new(0, 150)), ("i", new(0, 60_000)) })
        {
            using var pyramid = PyramidFile.Open(folder[name]);
            using var small = Image.NewFromBuffer(DisplayEncoder.Thumbnail(pyramid, window: window, format: format));
            Assert.Equal((256, 154), (small.Width, small.Height));
            // A ramp over the whole window: brightness at a place is the place, within what the packing loses.
            foreach (var x in new[] { 40, 128, 220 }) Assert.InRange(small[x, 77][0], 255 * (x + 0.5) / 256 - 4, 255 * (x + 0.5) / 256 + 4);
            if (name == "f") Assert.InRange(small[5, 77][0], 120, 136);
        }
    }

    [Fact]
    public void Known_suggested_window_leaves_out_the_extremes_and_no_data()
    {
        using var folder = new TemporaryFolder();
        TestImages.FloatPyramid(folder["f"], 400, 400, 1, (x, y, _) => x < 1 ? double.NaN : x + y < 4 ? 1e9 : y);
        using var pyramid = PyramidFile.Open(folder["f"]);
        var window = ContrastWindow.Suggest(pyramid);
        Assert.InRange(window.Low, 0, 4);
        Assert.InRange(window.High, 396, 400);
    }

    [Fact]
    public void Extreme_flat_and_empty_images_have_a_window()
    {
        using var folder = new TemporaryFolder();
        TestImages.FloatPyramid(folder["flat"], 4, 4, 1, (_, _, _) => 3);
        TestImages.FloatPyramid(folder["empty"], 4, 4, 1, (_, _, _) => double.NaN);
        using var flat = PyramidFile.Open(folder["flat"]);
        using var empty = PyramidFile.Open(folder["empty"]);
        Assert.Equal(new ContrastWindow(3, 4), ContrastWindow.Suggest(flat));
        Assert.Equal(new ContrastWindow(0, 1), ContrastWindow.Suggest(empty));
        Assert.Equal(128, Decoded(DisplayEncoder.Thumbnail(empty, format: DisplayFormat.Png))[0]);
    }

    [Fact]
    public void Known_preview_of_planes()
    {
        var plane = new Plane(4, 1, [0, 5, 10, float.NaN]);
        Assert.Equal([0, 128, 255, 128], Decoded(DisplayEncoder.Preview([plane], new ContrastWindow(0, 10))));
        Assert.Equal([0, 0, 0, 128, 128, 128, 255, 255, 255, 128, 128, 128], Decoded(DisplayEncoder.Preview([plane, plane, plane], new ContrastWindow(0, 10))));
    }

    private static byte[] Decoded(byte[] encoded)
    {
        using var image = Image.NewFromBuffer(encoded);
        return image.WriteToMemory<byte>();
    }

    private static double[] P3ToSrgb(params byte[] p3)
    {
        // Linear Display P3 to linear sRGB, from the two sets of primaries with the D65 white both share.
        double[,] m = { { 1.22494018, -0.22494018, 0 }, { -0.04205695, 1.04205695, 0 }, { -0.01963755, -0.07863605, 1.0982736 } };
        var linear = p3.Select(v => v / 255.0).Select(v => v <= 0.04045 ? v / 12.92 : Math.Pow((v + 0.055) / 1.055, 2.4)).ToArray();
        return [.. Enumerable.Range(0, 3).Select(i => m[i, 0] * linear[0] + m[i, 1] * linear[1] + m[i, 2] * linear[2])
            .Select(v => Math.Clamp(v, 0, 1)).Select(v => 255 * (v <= 0.0031308 ? 12.92 * v : 1.055 * Math.Pow(v, 1 / 2.4) - 0.055))];
    }
}
