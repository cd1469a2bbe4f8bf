using Sandarac.Imaging.Formats;
using Sandarac.Imaging.Geometry;
using Sandarac.Studio.Places;
using Sandarac.Studio.Record;
using Sandarac.Studio.Tests.Support;

namespace Sandarac.Studio.Tests;

public sealed class HereTests
{
    private static Examination Examine(TemporaryStudio home)
    {
        var folder = Path.Combine(home.Root, "photographs");
        SmallPhotographs.WriteSet(folder);
        return new Examining(home.Studio).Examine(folder, new ExamineOptions { HeightMm = 100, WidthMm = 117, CornersOnly = true });
    }

    [Fact]
    public void Values_at_a_place_are_the_files_own()
    {
        using var home = new TemporaryStudio();
        var examination = Examine(home);
        var here = new Here(home.Studio).At(examination.Painting.Id, new Point2(31.7, 44.2));
        Assert.Equal((31.7, 55.8), (here.FromLeft, Math.Round(here.FromBottom, 9)));
        Assert.Equal(["IR_01", "Infrared false colour", "Luminescence of the varnish, from its median", "Luminescence that the colour does not explain", "Luminescence, corrected", "UVL_01", "VIS_01"], here.Values.Select(v => v.Label).Order(StringComparer.Ordinal));
        foreach (var photograph in examination.Photographs)
        {
            var value = here.Values.Single(v => v.LayerId == $"p-{photograph.Id}");
            var pixel = photograph.Alignments.InForce()!.Map!.ToPixel(new Point2(31.7, 44.2));
            Assert.Equal((Math.Floor(pixel.X), Math.Floor(pixel.Y)), (value.Pixel.X, value.Pixel.Y));
            using var file = ImageFile.Open(Path.Combine(home.Root, "photographs", photograph.FileName));
            Assert.Equal(file.ReadWindow((int)pixel.X, (int)pixel.Y, 1, 1).Select(b => (double?)b.Data[0]), value.Values);
        }
    }

    [Fact]
    public void Outside_a_photograph_it_has_no_values()
    {
        using var home = new TemporaryStudio();
        Assert.Empty(new Here(home.Studio).At(Examine(home).Painting.Id, new Point2(-500, 10)).Values);
    }

    [Fact]
    public void Over_a_zone_mean_and_spread_are_those_of_the_pixels_whose_centres_lie_inside()
    {
        using var home = new TemporaryStudio();
        var examination = Examine(home);
        const string triangle = """{"type":"Polygon","coordinates":[[[20,20],[70,30],[35,80],[20,20]]]}""";
        var zone = new Zones(home.Studio).Create(examination.Painting.Id, new ZoneContent("a", "", "", triangle));
        var over = new Here(home.Studio).Over(zone.Id, TestContext.Current.CancellationToken);
        var photograph = examination.Photographs.Single(p => p.Light == "IR");
        var map = photograph.Alignments.InForce()!.Map!;
        using var file = ImageFile.Open(Path.Combine(home.Root, "photographs", photograph.FileName));
        var plane = file.ReadWindow(0, 0, file.Facts.Width, file.Facts.Height)[0];
        var polygon = ZoneGeometry.Read(triangle);
        List<double> inside = [];
        // The slow, obvious way: every pixel's centre is carried to the plane and asked for.
        for (var y = 0; y < plane.Height; y++)
            for (var x = 0; x < plane.Width; x++)
                if (map.ToPlane(new Point2(x + 0.5, y + 0.5)) is var mm && polygon.Contains(new NetTopologySuite.Geometries.Point(mm.X, mm.Y))) inside.Add(plane[x, y]);
        var values = over.Values.Single(v => v.LayerId == $"p-{photograph.Id}");
        var mean = inside.Average();
        Assert.Equal(inside.Count, values.Count);
        Assert.Equal(mean, values.Mean[0], 1e-6);
        Assert.Equal(Math.Sqrt(inside.Sum(v => (v - mean) * (v - mean)) / (inside.Count - 1)), values.StandardDeviation[0], 1e-6);
    }

    [Theory]
    [InlineData("""{"type":"Polygon","coordinates":[[[0,0],[4,0],[4,3],[0,3],[0,0]],[[1,1],[3,1],[3,2],[1,2],[1,1]]]}""", 10)]
    [InlineData("""{"type":"Point","coordinates":[2.5,1.5]}""", 1)]
    [InlineData("""{"type":"LineString","coordinates":[[0.5,0.5],[3.5,0.5]]}""", 4)]
    [InlineData("""{"type":"MultiPoint","coordinates":[[0.5,0.5],[0.7,0.7],[9,9]]}""", 1)]
    public void Pixels_are_counted_once_and_holes_are_left_out(string geometry, int expected)
    {
        var spans = PixelSpans.Of(ZoneGeometry.Read(geometry), p => p, 6, 5);
        Assert.Equal(expected, spans.Sum(s => s.X1 - s.X0));
    }

    [Fact]
    public void Zones_at_the_place_are_told()
    {
        using var home = new TemporaryStudio();
        var painting = home.AddPainting();
        var zones = new Zones(home.Studio);
        zones.Create(painting.Id, new ZoneContent("around", "", "", """{"type":"Polygon","coordinates":[[[0,0],[10,0],[10,10],[0,10],[0,0]]]}"""));
        zones.Create(painting.Id, new ZoneContent("near", "", "", """{"type":"Point","coordinates":[5.9,5]}"""));
        zones.Create(painting.Id, new ZoneContent("far", "", "", """{"type":"Point","coordinates":[6.1,5]}"""));
        Assert.Equal(["around", "near"], new Here(home.Studio).At(painting.Id, new Point2(5, 5)).Zones.Select(z => z.Name));
    }

    /// <summary>By hand: 20 x 10 mm on a face of 100 x 50, its outline of 60 mm off by sqrt(0.3 x 0.3 + 0.4 x 0.4) = 0.5 mm, the size by 1 % each way.</summary>
    [Fact]
    public void A_zones_area_is_as_sure_as_its_outline_and_the_size()
    {
        var painting = new Painting { Title = "p", WidthMm = 100, HeightMm = 50, PlaneMmPerPixel = 0.8, SizeUncertainty = 0.01 };
        Alignment Aligned(double left, double p95) => new()
        {
            PhotographId = Guid.NewGuid(), Version = 1, Method = "m", Verdict = Verdict.Aligned, Reason = "", CreatedAt = DateTime.UtcNow,
            Residuals = new Residuals(p95 / 2, p95, ""), PlaneExtent = new Box(left, 0, left + 50, 50),
        };
        var zone = ZoneGeometry.Read("""{"type":"Polygon","coordinates":[[[10,10],[30,10],[30,20],[10,20],[10,10]]]}""");
        var extent = ZoneExtents.Of(zone, painting, [Aligned(0, 0.3), Aligned(0, 0.1), Aligned(45, 9)]);
        Assert.Equal((200, 0.04), (extent.AreaMm2, Math.Round(extent.FaceShare, 9)));
        Assert.Equal(0.5, extent.BoundaryMm!.Value, 1e-9);
        Assert.Equal(Math.Sqrt(30 * 30 + 4 * 4), extent.AreaUncertaintyMm2!.Value, 1e-9);
        Assert.Equal(30 / 5000.0, extent.FaceShareUncertainty!.Value, 1e-9);
        Assert.Null(ZoneExtents.Of(zone, painting, [Aligned(45, 9)]).AreaUncertaintyMm2);
        // What lies beside the face is not counted.
        Assert.Equal(100, ZoneExtents.Of(ZoneGeometry.Read("""{"type":"Polygon","coordinates":[[[-10,10],[10,10],[10,20],[-10,20],[-10,10]]]}"""), painting, []).AreaMm2);
    }

    [Fact]
    public void Zones_that_cover_part_of_another_are_told_with_the_part()
    {
        using var home = new TemporaryStudio();
        var painting = home.AddPainting();
        var zones = new Zones(home.Studio);
        ZoneFacts Rectangle(string name, int left, int right) => zones.Create(painting.Id, new ZoneContent(name, "", "", $$"""{"type":"Polygon","coordinates":[[[{{left}},0],[{{right}},0],[{{right}},10],[{{left}},10],[{{left}},0]]]}"""));
        var zone = Rectangle("asked", 0, 10);
        Rectangle("tenth", 9, 20);
        Rectangle("beside", 11, 20);
        Rectangle("half", 5, 20);
        zones.Create(painting.Id, new ZoneContent("line", "", "", """{"type":"LineString","coordinates":[[2,2],[3,3]]}"""));
        var overlaps = new Here(home.Studio).Over(zone.Id, TestContext.Current.CancellationToken).Overlaps;
        Assert.Equal([("half", 50.0, 0.5), ("tenth", 10, 0.1), ("line", 0, 0)], overlaps.Select(o => (o.Zone.Name, o.AreaMm2, o.Share)));
    }

    /// <summary>What stays dark in ultraviolet is consistent with paint over the varnish, as the table says.</summary>
    [Fact]
    public void What_a_zone_is_consistent_with_is_several_materials_with_their_sources()
    {
        var run = Guid.NewGuid();
        ValuesOverZone Raster(string name, params double[] mean) => new($"r-{run}-{name}", null, name, mean, mean, 9, [], "");
        var told = Consistency.Of([Raster("false-colour", 0.75, 0.3, 0.3), Raster("corrected", 0.02, 0.02, 0.04), Raster("unexplained", -1.5)]);
        Assert.Equal(["False colour", "Luminescence"], told.Select(t => t.Light));
        Assert.All(told, t => Assert.True(t.NoAnswer is null ? t.Candidates.Count >= 2 : t.Candidates.Count == 0));
        Assert.Contains(told[1].Candidates, c => c.Name.StartsWith("retouching over varnish", StringComparison.Ordinal) && c.Source.Contains("READ", StringComparison.Ordinal));
        Assert.All(told.SelectMany(t => t.Candidates), c => Assert.Matches("READ|MEMORY", c.Source));
        Assert.All(told, t => Assert.Contains(t.Cautions, c => c.StartsWith("Consistent with is not identified", StringComparison.Ordinal)));
        // With the photograph in visible light the zone's blue is known: (0.3, 0.3, 0.9) of white is blue, so that pigments which are not stand apart.
        var visible = new ValuesOverZone("p-photograph", "VIS", "", [3000, 3000, 9000], [0, 0, 0], 9, [], "counts");
        var blue = Consistency.Of([Raster("false-colour", 0.75, 0.3, 0.3), visible])[0];
        Assert.Contains("in visible light", blue.Seen, StringComparison.Ordinal);
        Assert.Contains(blue.Candidates, c => c.Name == "ultramarine");
        Assert.DoesNotContain(blue.Candidates, c => c.Name == "madder lake");
        Assert.Equal(told[0].Candidates.Count, blue.Candidates.Count + blue.InMixtures.Count);
        // Without these readings, or without data, nothing is said; another run's map of what is unexplained does not count.
        Assert.Empty(Consistency.Of([Raster("false-colour", double.NaN, 0.3, 0.3)]));
        var other = new ValuesOverZone($"r-{Guid.NewGuid()}-unexplained", null, "", [-1.5], [0], 9, [], "");
        Assert.DoesNotContain("far darker", Consistency.Of([Raster("corrected", 0.02, 0.02, 0.04), other])[0].Seen, StringComparison.Ordinal);
    }
}
