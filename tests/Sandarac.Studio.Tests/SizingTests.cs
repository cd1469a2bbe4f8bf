using Microsoft.EntityFrameworkCore;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;
using Sandarac.Studio.Record;
using Sandarac.Studio.Tests.Support;

namespace Sandarac.Studio.Tests;

public sealed class SizingTests(PostgresServer server)
{
    [Theory, EachDatabase]
    public void A_measured_distance_changes_every_millimetre_and_nothing_else(Database database)
    {
        using var home = new TemporaryStudio(database, server);
        var before = Examine(home);
        var zone = new Zones(home.Studio).Create(before.Painting.Id, new ZoneContent("Crack", "crack", "", """{"type":"Point","coordinates":[30,20]}"""));
        new MarkSheets(home.Studio).Store(before.Painting.Id, 0, new MarkSheetContent(["loss"], 1, [], """{"type":"FeatureCollection","features":[{"type":"Feature","properties":{"class":"loss"},"geometry":{"type":"LineString","coordinates":[[30,20],[40,20]]}}]}"""));
        var runs = new Sizing(home.Studio).QueueByDistance(before.Painting.Id, new Point2(10, 10), new Point2(10, 60), 75, "test");
        Assert.Equal(3, runs.Count);
        foreach (var run in runs) Assert.Equal(RunState.Done, new Running(home.Studio).Execute(run.Id, null, TestContext.Current.CancellationToken).State);

        using var db = home.Studio.CreateDb();
        var painting = db.Paintings.AsNoTracking().Single();
        Assert.Equal((1.5 * 117.3, 150.0, ScaleOrigin.Distance), (painting.WidthMm, painting.HeightMm, painting.SizeOrigin));
        // Half a millimetre of 75, and 0.7 pixels of 0.37 mm in 50.
        Assert.InRange(painting.SizeUncertainty!.Value, 0.0067, 0.0095);
        foreach (var photograph in before.Photographs)
        {
            var history = new Aligning(home.Studio).History(photograph.Id);
            var (former, now) = (history[^2], history[^1]);
            Assert.Equal((now.Id, former.Method, former.Verdict), (former.SupersededBy!.Value, now.Method, now.Verdict));
            Assert.Equal(former.PlaneImage!.Width, now.PlaneImage!.Width);
            Assert.Equal(1.5 * former.Residuals!.P95Mm!.Value, now.Residuals!.P95Mm!.Value, 9);
            var pixel = new Point2(123.4, 234.5);
            Assert.Equal(1.5 * former.Map!.ToPlane(pixel).X, now.Map!.ToPlane(pixel).X, 9);
            Assert.Equal(1.5 * former.Map.ToPlane(pixel).Y, now.Map.ToPlane(pixel).Y, 9);
        }
        Assert.Contains("[45,30]", new Zones(home.Studio).Find(zone.Id).Geometry.Replace(".0", "", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.Contains("[[45,30],[60,30]]", new MarkSheets(home.Studio).Of(before.Painting.Id).Content.Marks.Replace(".0", "", StringComparison.Ordinal), StringComparison.Ordinal);
        // Examined again, the measured distance still counts.
        var again = Examine(home, said: false).Painting;
        Assert.Equal((150.0, ScaleOrigin.Distance), (again.HeightMm, again.SizeOrigin));
    }

    [Theory]
    [InlineData(10, 60, 0)]
    [InlineData(10, 60, -5)]
    [InlineData(10, 60, double.NaN)]
    [InlineData(10, 60, double.PositiveInfinity)]
    [InlineData(10, 10, 50)]
    [InlineData(10, double.NaN, 50)]
    [InlineData(10, 60, 50_000)]
    [InlineData(10, 60, 0.1)]
    public void Invalid_distances_change_nothing(double fromY, double toY, double mm)
    {
        using var home = new TemporaryStudio();
        var painting = Examine(home).Painting;
        Assert.Equal("distance", Assert.Throws<InputProblem>(() => new Sizing(home.Studio).QueueByDistance(painting.Id, new Point2(10, fromY), new Point2(10, toY), mm, "test")).Code);
        using var db = home.Studio.CreateDb();
        Assert.Equal((117.3, ScaleOrigin.Measured), (db.Paintings.Single().WidthMm, db.Paintings.Single().SizeOrigin));
    }

    [Fact]
    public void Invalid_times_are_refused()
    {
        using var home = new TemporaryStudio();
        var painting = Examine(home).Painting;
        var sizing = new Sizing(home.Studio);
        Assert.Equal("unknown-painting", Assert.Throws<InputProblem>(() => sizing.QueueByDistance(Guid.NewGuid(), new Point2(0, 0), new Point2(0, 50), 75, "test")).Code);
        sizing.QueueByDistance(painting.Id, new Point2(0, 0), new Point2(0, 50), 75, "test");
        Assert.Equal("busy", Assert.Throws<InputProblem>(() => sizing.QueueByDistance(painting.Id, new Point2(0, 0), new Point2(0, 50), 75, "test")).Code);
    }

    private static Examination Examine(TemporaryStudio home, bool said = true)
    {
        var folder = Path.Combine(home.Root, "photographs");
        if (!Directory.Exists(folder)) SmallPhotographs.WriteSet(folder);
        ExamineOptions options = new() { UserName = "test", CornersOnly = true };
        return new Examining(home.Studio).Examine(folder, said ? options with { HeightMm = 100, WidthMm = 117.3 } : options, cancellation: TestContext.Current.CancellationToken);
    }
}
