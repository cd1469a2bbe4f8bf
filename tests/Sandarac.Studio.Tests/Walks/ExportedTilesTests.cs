using NetVips;
using Sandarac.Imaging.Geometry;
using Sandarac.Studio.Record;
using Sandarac.Studio.Tests.Support;
using static Sandarac.Studio.Tests.Support.ExportedWalk;

namespace Sandarac.Studio.Tests.Walking;

/// <summary>An export's pictures are read back as any client of IIIF's Image API would read them.</summary>
public sealed class ExportedTilesTests : IDisposable
{
    private readonly ExportedWalk _walk = new();

    public void Dispose() => _walk.Dispose();

    /// <summary>Every tile of every picture, of each scale, holds what lies at its place on the plane, whatever grid its photograph has: all lights register.</summary>
    [Fact]
    public void Tiles_of_all_lights_hold_what_lies_at_their_place()
    {
        var (w, h) = (_walk.Painting.WidthMm, _walk.Painting.HeightMm);
        _walk.Visible();
        _walk.Home.AddWhole("UVL", 3, (_, y, _) => Slope(y, h));
        var coarse = _walk.Home.Add("IR", "IR_01.tif", 1, new Box(0, 0, w, h), 0.5, (x, _, _) => Slope(x, w));
        var part = _walk.Home.Add("XR", "XR_part.tif", 1, new Box(50.1, 40.2, 120, 90), 0.15, (x, _, _) => Slope(x, w));
        var made = _walk.Export(Walk(Step(coarse, part, ViewCompare.Divide)));
        Assert.Equal((4, Width, Height), (made.Pictures, made.Width, made.Height));
        foreach (var (key, expected) in new (string, Func<double, double, double>)[] { ("vis", (x, _) => x / w), ("uvl", (_, y) => y / h), ("ir", (x, _) => x / w) })
            Assert.Equal(9, Tiles(key, (x, y, value) => Assert.InRange(value - 255 * expected(x, y), -1.5, 1.5)));
        var inside = 0;
        Tiles("xr", (x, y, value) =>
        {
            // The rim itself belongs to neither, on the coarser scales it is broader.
            if (x is > 52 and < 168 && y is > 42 and < 128 && inside++ >= 0) Assert.InRange(value - 255 * x / w, -1.5, 1.5);
            if (x is < 47 or > 173 || y is < 37 or > 133) Assert.InRange(value, 126, 130);
        });
        Assert.True(inside > 100, "the part was hardly looked at");
    }

    /// <summary>A soft line at one place of a part is found there in the canvas, within a fifth of a pixel of it.</summary>
    [Fact]
    public void A_part_on_a_finer_grid_registers_within_a_fraction_of_a_pixel()
    {
        const double at = 103.3;
        var part = _walk.Home.Add("IR", "IR_detail.tif", 1, new Box(80.05, 40.15, 60, 50), 0.1, (x, _, _) => 6000 + 50000 * Math.Exp(-(x - at) * (x - at) / 0.5));
        _walk.Export(Walk(Step(_walk.Visible(), part, ViewCompare.Fade)));
        using var tile = Image.NewFromFile(_walk.PathOf("out", "pictures", "ir", "0,0,512,512", "512,512", "0", "default.jpg"));
        using var line = tile.Crop(360, 300, 120, 1);
        var (row, sum, moment) = (line.WriteToMemory<byte>(), 0.0, 0.0);
        for (var i = 0; i < 120; i++)
        {
            var weight = Math.Max(0, row[i * tile.Bands] - 40.0);
            (sum, moment) = (sum + weight, moment + weight * (360 + i + 0.5) * PlaneStudio.MmPerPixel);
        }
        Assert.InRange(moment / sum - at, -0.05, 0.05);
    }

    /// <summary>Visits every tile that the description names, on a lattice; how many there are.</summary>
    private int Tiles(string key, Action<double, double, double> look)
    {
        var count = 0;
        foreach (var s in _walk.Read("out", "pictures", key, "info.json")["tiles"]![0]!["scaleFactors"]!.AsArray().Select(n => (int)n!))
            for (var n = 0; n * 512 * s < Width; n++)
                for (var m = 0; m * 512 * s < Height; m++, count++)
                {
                    // IIIF Image API 3.0, implementation notes, section 3, as it is written there.
                    var (xr, yr, wr, hr, ws, hs) = (n * 512 * s, m * 512 * s, 512 * s, 512 * s, 512, 512);
                    if (xr + wr > Width) (wr, ws) = (Width - xr, (Width - xr + s - 1) / s);
                    if (yr + hr > Height) (hr, hs) = (Height - yr, (Height - yr + s - 1) / s);
                    var region = wr == Width && hr == Height ? "full" : $"{xr},{yr},{wr},{hr}";
                    using var tile = Image.NewFromFile(_walk.PathOf("out", "pictures", key, region, $"{ws},{hs}", "0", "default.jpg"));
                    Assert.Equal((ws, hs), (tile.Width, tile.Height));
                    var pixels = tile.WriteToMemory<byte>();
                    for (var y = 3; y < hs - 2; y += 37)
                        for (var x = 3; x < ws - 2; x += 29) look((xr + (x + 0.5) * s) * PlaneStudio.MmPerPixel, (yr + (y + 0.5) * s) * PlaneStudio.MmPerPixel, pixels[(y * ws + x) * tile.Bands]);
                }
        return count;
    }

    /// <summary>The description names what is there: IIIF Image API 3.0, sections 5.2 to 5.4, and compliance level 0 (full, max, 0, default, jpg).</summary>
    [Theory]
    [InlineData(0, Width, Height)]
    [InlineData(700, Width / 2, Height / 2)]
    public void A_description_names_the_files_that_are_there(int longest, int width, int height)
    {
        _walk.Visible();
        _walk.Export(null, new WalkExportOptions { BaseAddress = "https://museum.example/ferry/", LongestSide = longest, Rights = "http://rightsstatements.org/vocab/InC/1.0/" });
        var info = _walk.Read("out", "pictures", "vis", "info.json");
        Assert.Equal("http://iiif.io/api/image/3/context.json", (string)info["@context"]!);
        Assert.Equal(("https://museum.example/ferry/pictures/vis", "ImageService3", "http://iiif.io/api/image", "level0"), ((string)info["id"]!, (string)info["type"]!, (string)info["protocol"]!, (string)info["profile"]!));
        Assert.Equal((width, height, "http://rightsstatements.org/vocab/InC/1.0/"), ((int)info["width"]!, (int)info["height"]!, (string)info["rights"]!));
        var full = _walk.PathOf("out", "pictures", "vis", "full");
        using var largest = Image.NewFromFile(Path.Combine(full, "max", "0", "default.jpg"));
        if (info["maxWidth"] is { } most) Assert.True(largest.Width <= (int)most && largest.Height <= (int)info["maxHeight"]!);
        else Assert.Equal((width, height), (largest.Width, largest.Height));
        foreach (var size in info["sizes"]!.AsArray().Select(s => (Width: (int)s!["width"]!, Height: (int)s["height"]!)))
        {
            using var whole = Image.NewFromFile(Path.Combine(full, $"{size.Width},{size.Height}", "0", "default.jpg"));
            Assert.Equal(size, (whole.Width, whole.Height));
        }
    }

    /// <summary>Lambert's cosine law on one slope, by hand: n = (0.2, 0, sqrt(0.96)), slopes times 4, lamp at azimuth 90 and elevation 30; level shows 0.5 to the power 2.2 of the light.</summary>
    [Fact]
    public void A_lamp_over_the_surface_is_exported_as_a_picture()
    {
        var (visible, surface) = (_walk.Visible(), _walk.Home.AddSurface(0.2f, 0));
        _walk.Export(Walk(Step(surface, lamp: 90), Step(visible, lamp: 90)));
        var (nx, nz) = (4 * 0.2, Math.Sqrt(0.96));
        var light = (nx * Math.Cos(Math.PI / 6) + nz * 0.5) / Math.Sqrt(nx * nx + nz * nz) / 0.5;
        var expected = 255 * Math.Pow(Math.Min(1, Math.Pow(0.5, 2.2) * light), 1 / 2.2);
        using var whole = Image.NewFromFile(_walk.PathOf("out", "pictures", "surface", "full", "max", "0", "default.jpg"));
        Assert.InRange(whole.WriteToMemory<byte>()[5000], expected - 1.5, expected + 1.5);
        var steps = _walk.Data()["steps"]!;
        Assert.Equal(("surface", null, "vis", "surface"), ((string)steps[0]!["a"]!, (string?)steps[0]!["over"], (string)steps[1]!["a"]!, (string?)steps[1]!["over"]));
    }
}
