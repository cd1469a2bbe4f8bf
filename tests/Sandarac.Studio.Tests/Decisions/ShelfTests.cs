using Sandarac.Imaging;
using Sandarac.Materials.Solvents;
using Sandarac.Studio.Decisions;
using Sandarac.Studio.Tests.Support;

namespace Sandarac.Studio.Tests.Decisions;

public sealed class ShelfTests(PostgresServer server)
{
    private const string User = "marta";

    private static string CodeOf(Action act) => Assert.Throws<InputProblem>(act).Code;

    [Theory, EachDatabase]
    public void What_is_put_on_the_shelf_is_there_after_a_restart_until_it_is_used_up(Database database)
    {
        using var home = new TemporaryStudio(database, server);
        var put = new StudioShelf(home.Studio).Put("IPA", "L-2291", "any maker, for analysis", new DateOnly(2026, 3, 1), User);
        new StudioShelf(home.Studio).Put("cotton swabs", "", "", null, User);
        var shelf = new StudioShelf(home.Reopen());
        Assert.Equal(["cotton swabs", "propan-2-ol"], shelf.Items().Select(i => i.Name));
        Assert.Equal(["propan-2-ol"], shelf.Solvents());
        shelf.TakeOff(put.Id);
        Assert.Empty(shelf.Solvents());
        Assert.Equal("shelf-gone", CodeOf(() => shelf.TakeOff(put.Id)));
    }

    [Fact]
    public void Invalid_things_are_not_put_on_the_shelf()
    {
        using var home = new TemporaryStudio();
        var shelf = new StudioShelf(home.Studio);
        Assert.Equal("shelf-name", CodeOf(() => shelf.Put(" ", "", "", null, User)));
        Assert.Equal("shelf-name", CodeOf(() => shelf.Put("acetone", new string('x', 201), "", null, User)));
        Assert.Equal("shelf-sheet", CodeOf(() => shelf.Put("acetone", "", "", DateOnly.FromDateTime(DateTime.UtcNow).AddDays(9), User)));
        Assert.Empty(shelf.Items());
    }

    [Theory, EachDatabase]
    public void A_region_of_the_studio_keeps_its_figures_and_its_citation(Database database)
    {
        using var home = new TemporaryStudio(database, server);
        var regions = new StudioRegions(home.Studio);
        regions.Add(HansenSphere.Of("varnish, aged", new(17.5, 6.2, 8.1), 5.5, "own swab tests of 2026"), User);
        regions.Add(TeasArea.Of("varnish, aged", TeasArea.ReadCorners("70 10 20; 70 20 10; 50 30 20"), "own swab tests of 2026"), User);
        var own = new StudioRegions(home.Reopen()).Own();
        Assert.Equal(new HansenSphere("varnish, aged", new(17.5, 6.2, 8.1), 5.5, "own swab tests of 2026"), own.Select(r => r.Region).OfType<HansenSphere>().Single());
        Assert.Equal([new(70, 10, 20), new(70, 20, 10), new(50, 30, 20)], own.Select(r => r.Region).OfType<TeasArea>().Single().Corners);
        Assert.Equal(SolubilityRegion.All.Count + 2, new StudioRegions(home.Studio).All().Count);
    }

    [Fact]
    public void A_name_serves_once_until_its_region_is_withdrawn()
    {
        using var home = new TemporaryStudio();
        var regions = new StudioRegions(home.Studio);
        var sphere = HansenSphere.Of("varnish", new(17.5, 6.2, 8.1), 5.5, "own tests");
        regions.Add(sphere, User);
        Assert.Equal("region-there", CodeOf(() => regions.Add(sphere with { Radius = 7 }, User)));
        regions.Withdraw(regions.Own()[0].Id);
        regions.Add(sphere with { Radius = 7 }, User);
        Assert.Equal(7, Assert.IsType<HansenSphere>(Assert.Single(regions.Own()).Region).Radius);
        Assert.Equal("region-gone", CodeOf(() => regions.Withdraw(Guid.CreateVersion7())));
    }
}
