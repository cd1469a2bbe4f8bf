using Sandarac.Imaging;
using Sandarac.Studio.Tests.Support;

namespace Sandarac.Studio.Tests;

public sealed class ZoneTests(PostgresServer server)
{
    private const string Square = """{"type":"Polygon","coordinates":[[[10,20],[30,20],[30,40],[10,40],[10,20]]]}""";

    private static ZoneContent Content(string name = "flaking", string geometry = Square) => new(name, "flaking", "seen in raking light", geometry);

    [Theory, EachDatabase]
    public void A_zone_survives_a_restart_with_its_area_and_perimeter(Database database)
    {
        using var home = new TemporaryStudio(database, server);
        var made = new Zones(home.Studio).Create(home.AddPainting().Id, Content());
        var read = new Zones(home.Reopen()).Find(made.Id);
        Assert.Equal(made, read);
        Assert.Equal((400.0, 80.0, 1, false), (read.AreaMm2, read.LengthMm, read.Revision, read.IsDeleted));
    }

    [Theory, EachDatabase]
    public void Every_change_can_be_undone_across_a_restart(Database database)
    {
        using var home = new TemporaryStudio(database, server);
        var painting = home.AddPainting();
        var first = new Zones(home.Studio).Create(painting.Id, Content());
        var second = new Zones(home.Studio).Change(first.Id, 1, Content("loss"));
        Assert.True(new Zones(home.Studio).Delete(first.Id, second.Revision).IsDeleted);
        var zones = new Zones(home.Reopen());
        Assert.Empty(zones.Of(painting.Id));
        Assert.Equal(("loss", false), (zones.Restore(first.Id).Name, zones.Find(first.Id).IsDeleted));
        Assert.Equal(("flaking", 5), (zones.Restore(first.Id, 1).Name, zones.Find(first.Id).Revision));
        Assert.Equal(["created", "changed", "deleted", "restored", "restored"], zones.History(first.Id).Select(c => c.What));
    }

    [Theory, EachDatabase]
    public void A_change_made_on_an_old_revision_is_refused(Database database)
    {
        using var home = new TemporaryStudio(database, server);
        var zones = new Zones(home.Studio);
        var zone = zones.Create(home.AddPainting().Id, Content());
        zones.Change(zone.Id, 1, Content("loss"));
        Assert.Equal("zone-changed", Assert.Throws<InputProblem>(() => zones.Change(zone.Id, 1, Content("stain"))).Code);
        Assert.Equal("zone-changed", Assert.Throws<InputProblem>(() => zones.Delete(zone.Id, 1)).Code);
        Assert.Equal("loss", zones.Find(zone.Id).Name);
    }

    [Theory, EachDatabase]
    public void Of_changes_at_the_same_moment_one_wins_and_the_others_are_told(Database database)
    {
        using var home = new TemporaryStudio(database, server);
        var zones = new Zones(home.Studio);
        var zone = zones.Create(home.AddPainting().Id, Content());
        var won = 0;
        Parallel.For(0, 8, i =>
        {
            try
            {
                zones.Change(zone.Id, 1, Content($"by {i}"));
                Interlocked.Increment(ref won);
            }
            catch (InputProblem e) when (e.Code == "zone-changed")
            {
            }
        });
        Assert.Equal((1, 2), (won, zones.Find(zone.Id).Revision));
    }

    [Theory]
    [InlineData("""{"type":"Polygon","coordinates":[[[0,0],[10,10],[10,0],[0,10],[0,0]]]}""", "The outline crosses itself at 5.0 mm from left, 513.0 mm from bottom.")]
    [InlineData("""{"type":"Polygon","coordinates":[[[0,0],[10,10],[0,0],[0,0]]]}""", "outline")]
    [InlineData("""{"type":"Polygon","coordinates":[]}""", "no points")]
    [InlineData("""{"type":"GeometryCollection","geometries":[]}""", "a point, a line or a polygon")]
    [InlineData("""{"type":"Polygon","coordinates":[[[0,0],[10,10],[10,0]]]}""", "")]
    [InlineData("""{"type":"Point","coordinates":["a","b"]}""", "not GeoJSON")]
    [InlineData("""{"type":"Square"}""", "not GeoJSON")]
    [InlineData("null", "not GeoJSON")]
    [InlineData("five", "not GeoJSON")]
    [InlineData("", "not GeoJSON")]
    public void Invalid_geometry_is_refused_in_words_and_nothing_is_stored(string geometry, string words)
    {
        using var home = new TemporaryStudio();
        var painting = home.AddPainting();
        var problem = Assert.Throws<InputProblem>(() => new Zones(home.Studio).Create(painting.Id, Content(geometry: geometry)));
        Assert.Equal("zone-geometry", problem.Code);
        Assert.Contains(words, problem.Message, StringComparison.Ordinal);
        Assert.Empty(new Zones(home.Studio).Of(painting.Id));
    }
}
