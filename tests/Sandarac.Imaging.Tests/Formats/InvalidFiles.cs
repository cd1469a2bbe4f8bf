using NetVips;
using Sandarac.Imaging.Formats;
using Sandarac.Imaging.Storing;

namespace Sandarac.Imaging.Tests.Formats;

/// <summary>Bad input: each file gets its own code and words, and nothing is left behind.</summary>
public sealed class InvalidFiles
{
    [Fact]
    public void Invalid_missing_folder_and_empty_file()
    {
        using var folder = new TemporaryFolder();
        File.WriteAllBytes(folder["empty.tif"], []);
        Directory.CreateDirectory(folder["sub"]);
        Assert.Equal("file-missing", Refused(folder["nothing.tif"]).Code);
        Assert.Equal("not-a-file", Refused(folder["sub"]).Code);
        Assert.Equal("file-empty", Refused(folder["empty.tif"]).Code);
    }

    [Fact]
    public void Invalid_a_pipe_does_not_make_it_wait()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux() || OperatingSystem.IsMacOS(), "skipped: no named pipes in folders on this system");
        using var folder = new TemporaryFolder();
        using (var make = System.Diagnostics.Process.Start("mkfifo", [folder["pipe.tif"]])) make.WaitForExit();
        Assert.Equal("file-empty", Refused(folder["pipe.tif"]).Code);
    }

    [Fact]
    public void Invalid_a_file_that_may_not_be_read()
    {
        using var folder = new TemporaryFolder();
        File.WriteAllBytes(folder["a.tif"], TiffBuilder.Grey8(4, 4).Build());
        if (!OperatingSystem.IsWindows()) File.SetUnixFileMode(folder["a.tif"], UnixFileMode.None);
        Assert.SkipWhen(OperatingSystem.IsWindows() || Environment.UserName == "root", "skipped: permissions do not bind this user");
        Assert.Equal("file-unreadable", Refused(folder["a.tif"]).Code);
    }

    [Theory]
    [InlineData("notes on the varnish\nsecond line", "is text")]
    [InlineData("%PDF-1.7 and so on", "PDF")]
    [InlineData("PK\u0003\u0004", "zip")]
    [InlineData("\u0001\u0002\u0003\u0004", "not an image")]
    public void Invalid_other_things_named_tif_are_called_by_their_name(string content, string says)
    {
        using var folder = new TemporaryFolder();
        File.WriteAllText(folder["a.tif"], content);
        var problem = Refused(folder["a.tif"]);
        Assert.Equal("not-an-image", problem.Code);
        Assert.Contains(says, problem.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Invalid_suffix_is_a_warning_only()
    {
        using var folder = new TemporaryFolder();
        using (var rgb = TestImages.Rgb8(40, 30)) rgb.Jpegsave(folder["a.jpg"]);
        File.Move(folder["a.jpg"], folder["a.tif"]);
        using var image = ImageFile.Open(folder["a.tif"]);
        Assert.Equal("jpeg", image.Facts.Kind);
        Assert.Contains(image.Facts.Warnings, w => w.Code == "suffix-mismatch");
    }

    [Fact]
    public void Invalid_truncated_TIFF_says_how_much_is_there()
    {
        using var folder = new TemporaryFolder();
        var whole = TiffBuilder.Grey8(2000, 1000).Build();
        File.WriteAllBytes(folder["UVL_02.tif"], whole.AsSpan(0, 740_000));
        var problem = Refused(folder["UVL_02.tif"]);
        Assert.Equal("file-truncated", problem.Code);
        Assert.Equal("UVL_02.tif ends early (1 of 2 MB).", problem.Message);
        Assert.StartsWith("Copy it again", problem.Remedy, StringComparison.Ordinal);
    }

    /// <summary>Cut at any place, a file is refused: on opening, or when its pixels are read; never taken for whole.</summary>
    [Theory]
    [InlineData("a.tif", "none")]
    [InlineData("a.tif", "deflate")]
    [InlineData("a.tif", "lzw")]
    [InlineData("a.tif", "jpeg")]
    [InlineData("a.png", "")]
    [InlineData("a.jpg", "")]
    [InlineData("a.webp", "")]
    [InlineData("a.avif", "")]
    public void Invalid_files_cut_anywhere_are_refused(string name, string packing)
    {
        using var folder = new TemporaryFolder();
        using (var rgb = TestImages.Rgb8(300, 200)) rgb.WriteToFile(folder[name] + (packing.Length > 0 ? $"[compression={packing}]" : ""));
        var whole = File.ReadAllBytes(folder[name]);
        for (var part = 1; part < 40; part++)
        {
            File.WriteAllBytes(folder[name], whole.AsSpan(0, Math.Min(whole.Length - 3, whole.Length * part / 39)));
            var problem = Assert.Throws<InputProblem>(() => Ingest.Run(folder[name], folder["copy"], folder["pyramid"], cancellation: TestContext.Current.CancellationToken));
            Assert.Equal(name, problem.Subject);
            Assert.Equal([name], folder.Files);
        }
    }

    [Fact]
    public void Invalid_limits_are_checked_on_the_header()
    {
        using var folder = new TemporaryFolder();
        File.WriteAllBytes(folder["wide.tif"], TiffBuilder.Grey8(10, 10).Longs(256, 100_000).Longs(257, 100_000).Build());
        using (var black = Image.Black(30_000, 30_000)) black.Pngsave(folder["bomb.png"], compression: 9);
        var small = ImageLimits.Default with { MaxPixels = 1_000_000 };
        Assert.Equal("image-too-large", Refused(folder["wide.tif"]).Code);
        Assert.Equal("image-too-large", Refused(folder["wide.tif"], small).Code);
        Assert.Contains("no photograph", Refused(folder["bomb.png"]).Message, StringComparison.Ordinal);
        Assert.Contains("million", Refused(folder["bomb.png"], small).Message, StringComparison.Ordinal);
        Assert.Equal("image-too-large", Refused(folder["bomb.png"], ImageLimits.Default with { MaxDecodedBytes = 1 << 20 }).Code);
        Assert.Equal("file-too-large", Refused(folder["bomb.png"], ImageLimits.Default with { MaxFileBytes = 100 }).Code);
        ImageFile.Open(folder["bomb.png"], ImageLimits.Default with { MaxExpansion = long.MaxValue }).Dispose();
    }

    [Fact]
    public void Invalid_directories()
    {
        using var folder = new TemporaryFolder();
        var good = TiffBuilder.Grey8(10, 10).Build();
        byte[] outside = [.. good];
        outside[4] = outside[5] = 0xFF;
        File.WriteAllBytes(folder["outside.tif"], outside);
        byte[] countless = [.. good];
        countless[8] = countless[9] = 0xFF;
        File.WriteAllBytes(folder["countless.tif"], countless);
        File.WriteAllBytes(folder["header.tif"], good.AsSpan(0, 8));
        foreach (var name in new[] { "outside.tif", "countless.tif", "header.tif" }) Assert.Equal("file-damaged", Refused(folder[name]).Code);
    }

    [Fact]
    public void Invalid_directories_that_go_round_in_a_circle_do_not_hang()
    {
        using var folder = new TemporaryFolder();
        File.WriteAllBytes(folder["round.tif"], new TiffBuilder { Pixels = new byte[100], Next = 8 }.Shorts(258, 8).Shorts(259, 1).Shorts(262, 1)
            .Longs(256, 10).Longs(257, 10).Longs(279, 100).Build());
        using var image = ImageFile.Open(folder["round.tif"]);
        Assert.InRange(image.Facts.Pages, 1, 2);
        Assert.Equal(10, image.ReadWindow(0, 0, 10, 10)[0].Width);
    }

    [Fact]
    public void Invalid_camera_raw_is_not_taken_for_its_preview()
    {
        using var folder = new TemporaryFolder();
        File.WriteAllBytes(folder["a.dng"], TiffBuilder.Grey8(10, 10).Bytes(50706, [1, 4, 0, 0]).Build());
        File.WriteAllBytes(folder["a.tif"], TiffBuilder.Grey8(10, 10).Longs(254, 1).Longs(330, 8).Build());
        Assert.Equal("camera-raw", Refused(folder["a.dng"]).Code);
        Assert.Equal("camera-raw", Refused(folder["a.tif"]).Code);
    }

    /// <summary>A few bytes changed anywhere in the header of a small image, plain or pyramid: opened or refused, never anything else.</summary>
    [Fact]
    public void Extreme_headers_with_changed_bytes()
    {
        using var folder = new TemporaryFolder();
        using (var rgb = TestImages.Rgb8(90, 70)) rgb.Tiffsave(folder["packed"], compression: Enums.ForeignTiffCompression.Lzw);
        TestImages.FloatPyramid(folder["pyramid"], 700, 20, 1, (x, y, _) => x + y);
        foreach (var original in new[] { TiffBuilder.Grey8(40, 30).Exif(36867, "2024:05:06 07:08:09").Build(), File.ReadAllBytes(folder["packed"]), File.ReadAllBytes(folder["pyramid"]) })
        {
            var random = new Random(5);
            for (var i = 0; i < 150; i++)
            {
                byte[] changed = [.. original];
                for (var n = random.Next(1, 5); n > 0; n--) changed[random.Next(4, Math.Min(changed.Length, 900))] = (byte)random.Next(256);
                File.WriteAllBytes(folder["a.tif"], changed);
                try
                {
                    using var image = ImageFile.Open(folder["a.tif"], ImageLimits.Default with { MaxDecodedBytes = 50_000_000 });
                    image.ReadWindow(0, 0, image.Facts.Width, image.Facts.Height);
                }
                catch (InputProblem)
                {
                }
            }
        }
    }

    private static InputProblem Refused(string path, ImageLimits? limits = null) => Assert.Throws<InputProblem>(() => ImageFile.Open(path, limits).Dispose());
}
