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
        Assert.Equal(["VIS_01", "UVL_01", "IR_01", "Infrared false colour"], here.Values.Select(v => v.Label).OrderBy(l => Array.IndexOf(["VIS_01", "UVL_01", "IR_01"], l) is var i && i < 0 ? 9 : i));
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
}
