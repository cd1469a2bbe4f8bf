using NetVips;
using Sandarac.Imaging.Formats;

namespace Sandarac.Imaging.Tests.Formats;

/// <summary>What headers say, against files whose header was written by hand or by libvips with stated values.</summary>
public sealed class KnownFacts
{
    private static readonly TimeSpan Second = TimeSpan.FromSeconds(1);

    [Fact]
    public void Known_tags_of_a_TIFF_written_by_hand()
    {
        using var folder = new TemporaryFolder();
        File.WriteAllBytes(folder["a.tif"], TiffBuilder.Grey8(30, 20).Ratio(282, 400, 1).Ratio(283, 400, 1).Shorts(296, 2).Text(270, "Ferry at low water")
            .Text(271, "Maker").Text(272, "Maker One").Exif(36867, "2024:05:06 07:08:09").Build());
        using var image = ImageFile.Open(folder["a.tif"]);
        Assert.Equal((30, 20, 1, SampleFormat.UInt8, 255.0, "tiff"), (image.Facts.Width, image.Facts.Height, image.Facts.Bands, image.Facts.Format, image.Facts.FullScale, image.Facts.Kind));
        Assert.Equal(25.4 / 400, image.Facts.Scale!.Value.MmPerPixel, 1e-12);
        Assert.Equal(ScaleOrigin.Metadata, image.Facts.Scale.Value.Origin);
        Assert.Equal("Ferry at low water", image.Facts.Description);
        Assert.Equal("Maker One", image.Facts.Camera);
        Assert.Equal(new DateTime(2024, 5, 6, 7, 8, 9), image.Facts.TakenAt!.Value, Second);
        Assert.Empty(image.Facts.Warnings);
    }

    [Fact]
    public void Known_EXIF_of_a_JPEG()
    {
        using var folder = new TemporaryFolder();
        using (var rgb = TestImages.Rgb8(64, 48))
        using (var tagged = rgb.Mutate(m =>
        {
            m.Set(GValue.GStrType, "exif-ifd0-Make", "Maker");
            m.Set(GValue.GStrType, "exif-ifd0-Model", "Two");
            m.Set(GValue.GStrType, "exif-ifd2-DateTimeOriginal", "2023:01:02 03:04:05");
        })) tagged.Jpegsave(folder["a.jpg"]);
        using var image = ImageFile.Open(folder["a.jpg"]);
        Assert.Equal("Maker Two", image.Facts.Camera);
        Assert.Equal(new DateTime(2023, 1, 2, 3, 4, 5), image.Facts.TakenAt!.Value, Second);
    }

    [Theory]
    [InlineData(72, "resolution-not-believable", false)]
    [InlineData(96, "resolution-not-believable", false)]
    [InlineData(1, "resolution-not-believable", false)]
    [InlineData(300, "resolution-may-be-default", true)]
    [InlineData(412, null, true)]
    public void Known_resolutions_that_nobody_measured_are_no_scale(int pixelsPerInch, string? warning, bool scale)
    {
        using var folder = new TemporaryFolder();
        File.WriteAllBytes(folder["a.tif"], TiffBuilder.Grey8(8, 8).Ratio(282, (uint)pixelsPerInch, 1).Ratio(283, (uint)pixelsPerInch, 1).Build());
        using var image = ImageFile.Open(folder["a.tif"]);
        Assert.Equal(scale, image.Facts.Scale is not null);
        Assert.Equal(warning, image.Facts.Warnings.SingleOrDefault()?.Code);
    }

    [Fact]
    public void Known_profile_names_of_version_2_and_version_4()
    {
        // Laid out by hand after ICC.1:2001-04, 6.5.17 (textDescriptionType) and ICC.1:2010, 10.13 (multiLocalizedUnicodeType).
        byte[] text = [.. "desc"u8, 0, 0, 0, 0, 0, 0, 0, 6, .. "House\0"u8];
        byte[] several = [.. "mluc"u8, 0, 0, 0, 0, 0, 0, 0, 2, 0, 0, 0, 12, .. "deDE"u8, 0, 0, 0, 4, 0, 0, 0, 40, .. "enGB"u8, 0, 0, 0, 4, 0, 0, 0, 44, 0, (byte)'H', 0, (byte)'a', 0, (byte)'H', 0, (byte)'o'];
        Assert.Equal("House", IccText.Description(Profile(text)));
        Assert.Equal("Ho", IccText.Description(Profile(several)));
        Assert.Null(IccText.Description(Profile(text).AsSpan(0, 140)));
        Assert.Null(IccText.Description([]));
    }

    [Theory]
    [InlineData("srgb", "sRGB")]
    [InlineData("p3", "P3")]
    public void Known_profile_of_a_tagged_file_is_named_and_kept(string profile, string says)
    {
        using var folder = new TemporaryFolder();
        using (var rgb = TestImages.Rgb8(20, 20)) rgb.Tiffsave(folder["a.tif"], profile: profile);
        using var image = ImageFile.Open(folder["a.tif"]);
        Assert.Contains(says, image.Facts.IccDescription, StringComparison.Ordinal);
        Assert.NotNull(image.IccProfile);
        Assert.DoesNotContain(image.Facts.Warnings, w => w.Code == "no-icc-profile");
    }

    [Fact]
    public void Known_untagged_colour_is_a_warning_and_untagged_grey_is_none()
    {
        using var folder = new TemporaryFolder();
        using (var rgb = TestImages.Rgb8(20, 20))
        {
            rgb.Pngsave(folder["colour.png"]);
            using var grey = rgb[0];
            grey.Pngsave(folder["grey.png"]);
        }
        using var colour = ImageFile.Open(folder["colour.png"]);
        using var one = ImageFile.Open(folder["grey.png"]);
        Assert.Equal("no-icc-profile", Assert.Single(colour.Facts.Warnings).Code);
        Assert.Empty(one.Facts.Warnings);
    }

    [Fact]
    public void Known_only_the_first_page_is_used_and_that_is_said()
    {
        using var folder = new TemporaryFolder();
        using (var first = TestImages.Rgb8(20, 10))
        using (var second = first.Invert())
        using (var both = Image.Arrayjoin([first, second], across: 1))
        using (var pages = both.Mutate(m => m.Set(GValue.GIntType, "page-height", 10))) pages.Tiffsave(folder["a.tif"]);
        using var image = ImageFile.Open(folder["a.tif"]);
        Assert.Equal((20, 10, 2), (image.Facts.Width, image.Facts.Height, image.Facts.Pages));
        Assert.Contains(image.Facts.Warnings, w => w.Code == "several-pages");
        Assert.Equal(TestImages.Value(3, 4, 0) % 256, image.ReadWindow(3, 4, 1, 1)[0][0, 0]);
    }

    [Fact]
    public void Known_inks_become_colours_and_that_is_said()
    {
        using var folder = new TemporaryFolder();
        using (var rgb = TestImages.Rgb8(20, 10))
        using (var white = (rgb * 0).Cast(Enums.BandFormat.Uchar).Bandjoin((rgb[0] * 0).Cast(Enums.BandFormat.Uchar)).Copy(interpretation: Enums.Interpretation.Cmyk)) white.Tiffsave(folder["a.tif"]);
        using var image = ImageFile.Open(folder["a.tif"]);
        Assert.Equal((3, SampleFormat.UInt8), (image.Facts.Bands, image.Facts.Format));
        Assert.Contains(image.Facts.Warnings, w => w.Code == "colour-converted");
        // No ink is white paper.
        foreach (var band in image.ReadWindow(0, 0, 20, 10)) Assert.InRange(band[5, 5], 250, 255);
    }

    /// <summary>TIFF 6.0, section 8, Orientation: where row 0 and column 0 of the file lie in the picture.</summary>
    [Theory]
    [InlineData(1, 0, 0)]
    [InlineData(2, 2, 0)]
    [InlineData(3, 2, 1)]
    [InlineData(4, 0, 1)]
    [InlineData(5, 0, 0)]
    [InlineData(6, 1, 0)]
    [InlineData(7, 1, 2)]
    [InlineData(8, 0, 2)]
    public void Known_orientation_is_honoured(int orientation, int x, int y)
    {
        using var folder = new TemporaryFolder();
        var builder = TiffBuilder.Grey8(3, 2).Shorts(274, (ushort)orientation);
        builder.Pixels[0] = 200;
        File.WriteAllBytes(folder["a.tif"], builder.Build());
        using var image = ImageFile.Open(folder["a.tif"]);
        Assert.Equal(orientation >= 5 ? (2, 3) : (3, 2), (image.Facts.Width, image.Facts.Height));
        Assert.Equal(200, image.ReadWindow(0, 0, image.Facts.Width, image.Facts.Height)[0][x, y]);
        Assert.Equal(orientation > 1, image.Facts.Warnings.Any(w => w.Code == "orientation-applied"));
    }

    private static byte[] Profile(byte[] tag)
    {
        byte[] head = new byte[128];
        return [.. head, 0, 0, 0, 1, .. "desc"u8, 0, 0, 0, 144, 0, 0, 0, (byte)tag.Length, .. tag];
    }
}
