using Sandarac.Imaging;
using Sandarac.Studio.Tests.Support;

namespace Sandarac.Studio.Tests;

public sealed class IdentityTests(PostgresServer server)
{
    private static PaintingIdentity Ferry => new("Ferry at low water", "oil on oak", "oak panel", "2026.7", 1640, 1660);

    [Theory, EachDatabase]
    public void What_is_stated_of_a_painting_survives_a_restart_and_what_was_before_stays(Database database)
    {
        using var home = new TemporaryStudio(database, server);
        var painting = home.AddPainting();
        var identity = new Identity(home.Studio);
        var (before, revision) = identity.Of(painting.Id);
        Assert.Equal(2, identity.Change(painting.Id, revision, Ferry, "marta"));
        Assert.Equal("painting-changed", Assert.Throws<InputProblem>(() => identity.Change(painting.Id, revision, before, "jan")).Code);
        Assert.Equal((Ferry, 2), new Identity(home.Reopen()).Of(painting.Id));
        using var db = home.Studio.CreateDb();
        var history = db.WrittenChanges.Where(c => c.SubjectId == painting.Id).OrderBy(c => c.Revision).ToList();
        Assert.Equal(["created", "changed"], history.Select(c => c.What));
        Assert.Contains(before.Title, history[0].Content, StringComparison.Ordinal);
    }

    [Fact]
    public void What_is_wrong_is_told_and_nothing_changes()
    {
        using var home = new TemporaryStudio();
        var (painting, identity) = (home.AddPainting(), new Identity(home.Studio));
        var before = identity.Of(painting.Id);
        string Refused(PaintingIdentity stated) => Assert.Throws<InputProblem>(() => identity.Change(painting.Id, 0, stated, "marta")).Code;
        Assert.Equal("years", Refused(Ferry with { DateFrom = 1661 }));
        Assert.Equal("years", Refused(Ferry with { DateTo = 0 }));
        Assert.Equal("years", Refused(Ferry with { DateFrom = int.MinValue }));
        Assert.Equal("years", Refused(Ferry with { DateTo = 9999 }));
        Assert.Equal("name", Refused(Ferry with { Title = "  " }));
        Assert.Equal("name", Refused(Ferry with { Support = new string('a', 201) }));
        Assert.Equal("name", Refused(Ferry with { Technique = "oil\u0001" }));
        Assert.Equal("name", Refused(Ferry with { AccessionNumber = "a\nb" }));
        Assert.Equal(before, identity.Of(painting.Id));
        Assert.Equal("unknown-painting", Assert.Throws<InputProblem>(() => identity.Of(Guid.NewGuid())).Code);
    }
}
