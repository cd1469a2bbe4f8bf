using Sandarac.Imaging;
using Sandarac.Studio.Cleaning;
using Sandarac.Studio.Record;
using Sandarac.Studio.Tests.Plans;
using Sandarac.Studio.Tests.Support;

namespace Sandarac.Studio.Tests.Cleaning;

public sealed class CleaningTestTests(PostgresServer server)
{
    private const string User = "marta";

    private static CleaningTestContent Planned => new()
    {
        X = 100, Y = 60, AreaMm2 = 40, Passage = Passage.Dark, Aim = CleaningDepth.Varnish, AgentKind = AgentKind.Solvent, Agent = [new("ethanol", 20), new("isooctane", 80)], Carrier = "cotton swab, rolled", PlannedSeconds = 20,
    };

    private static CleaningTestContent Done => Planned with { DoneOn = new DateOnly(2026, 5, 4), DoneBy = "Marta Oud", Seconds = 15, OnVarnish = TestEffect.Removed, OnOriginal = TestEffect.None, SwabColour = "yellow", UltravioletAfter = "dark, clean edge", Verdict = TestVerdict.AsIntended };

    private static string CodeOf(Action act) => Assert.Throws<InputProblem>(act).Code;

    [Theory, EachDatabase]
    public void Tests_are_numbered_as_they_are_written_and_survive_a_restart(Database database)
    {
        using var records = new PlanRecords(database, server);
        var tests = new CleaningTests(records.Studio);
        var first = tests.Create(records.Painting.Id, Planned, User);
        var second = tests.Create(records.Painting.Id, Planned with { Passage = Passage.Light }, User);
        tests.Delete(first.Id, 1, User);
        var third = tests.Create(records.Painting.Id, Planned, User);
        Assert.Equal([1, 2, 3], new[] { first, second, third }.Select(t => t.Content.Number));
        var done = tests.Change(second.Id, 1, Done with { Number = 99 }, User);
        Assert.Equal(2, done.Content.Number);
        var again = new CleaningTests(records.Home.Reopen());
        Assert.Equivalent(done.Content, again.Find(second.Id).Content, strict: true);
        Assert.Equal([2, 3], again.Of(records.Painting.Id).Select(t => t.Content.Number));
    }

    [Fact]
    public void What_is_wrong_is_told_and_nothing_is_kept()
    {
        using var records = new PlanRecords();
        var tests = new CleaningTests(records.Studio);
        string Refused(CleaningTestContent content) => CodeOf(() => tests.Create(records.Painting.Id, content, User));
        Assert.Equal("test-agent", Refused(Planned with { Agent = [] }));
        Assert.Equal("test-agent", Refused(Planned with { Agent = [new("ethanol", 20), new("isooctane", 79)] }));
        Assert.Equal("test-agent", Refused(Planned with { Agent = [new("ethanol", 50), new("Ethanol ", 50)] }));
        Assert.Equal("test-agent", Refused(Planned with { Agent = [new("ethanol", double.NaN), new("isooctane", 80)] }));
        Assert.Equal("test-agent", Refused(Planned with { Agent = [new("ethanol", -20), new("isooctane", 120)] }));
        Assert.Equal("name", Refused(Planned with { Agent = [new(" ", 100)] }));
        Assert.Equal("test-aim", Refused(Planned with { Aim = CleaningDepth.Original }));
        Assert.Equal("test-aim", Refused(Planned with { Aim = (CleaningDepth)77 }));
        Assert.Equal("test-place", Refused(Planned with { X = 100_000 }));
        Assert.Equal("test-place", Refused(Planned with { Y = null }));
        Assert.Equal("unknown-zone", Refused(Planned with { ZoneId = Guid.NewGuid() }));
        Assert.Equal("test-area", Refused(Planned with { AreaMm2 = 0 }));
        Assert.Equal("test-time", Refused(Planned with { PlannedSeconds = double.PositiveInfinity }));
        Assert.Equal("test-time", Refused(Done with { Seconds = -1 }));
        Assert.Equal("test-not-done", Refused(Done with { DoneOn = null }));
        Assert.Equal("test-date", Refused(Done with { DoneOn = new DateOnly(2126, 1, 1) }));
        Assert.Equal("test-by", Refused(Done with { DoneBy = " " }));
        Assert.Equal("test-result", Refused(Done with { OnVarnish = TestEffect.NotStated, OnOriginal = TestEffect.NotStated, Verdict = TestVerdict.Open }));
        Assert.Equal("test-original", Refused(Done with { OnOriginal = TestEffect.NotStated }));
        Assert.Equal("unknown-photograph", Refused(Done with { Photographs = [Guid.NewGuid()] }));
        Assert.Empty(tests.Of(records.Painting.Id));
        tests.Create(records.Painting.Id, Planned with { Agent = [new("ethanol", 20.2), new("isooctane", 80.2)] }, User);
        tests.Create(records.Painting.Id, Planned with { AgentKind = AgentKind.Aqueous, Agent = [new("citric acid", 0.5), new("water", 99)] }, User);
    }

    [Fact]
    public void A_test_that_acted_below_its_aim_went_further_than_planned()
    {
        string[] Codes(CleaningTestContent test) => [.. TestFlags.Of(test).Select(f => f.Code)];
        Assert.Empty(Codes(Planned));
        Assert.Empty(Codes(Done));
        Assert.Equal(["touched-original", "verdict-against-effects"], Codes(Done with { OnOriginal = TestEffect.Softened }));
        Assert.Equal(["went-further"], Codes(Done with { OnOverpaint = TestEffect.Reduced, Verdict = TestVerdict.TooStrong }));
        Assert.Equal(["went-further", "went-further"], Codes(Done with { Aim = CleaningDepth.Dirt, OnDirt = TestEffect.Removed, OnOverpaint = TestEffect.Reduced, Verdict = TestVerdict.TooStrong }));
        Assert.Equal(["swab-took-paint", "longer-than-planned", "verdict-against-effects"], Codes(Done with { SwabTookPaint = true, Seconds = 21 }));
        Assert.Equal(["verdict-against-effects", "no-ultraviolet"], Codes(Done with { OnVarnish = TestEffect.None, UltravioletAfter = "" }));
        Assert.DoesNotContain("safe", string.Join(' ', TestFlags.Of(Done with { OnOriginal = TestEffect.Removed, SwabTookPaint = true }).Select(f => f.Message)), StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public void Agents_are_read_as_they_are_written()
    {
        Assert.Equal([new AgentPart("ethanol", 20), new AgentPart("isooctane", 80)], AgentText.Read("ethanol 20 + isooctane 80 %".Replace(" %", "%", StringComparison.Ordinal)));
        Assert.Equal([new AgentPart("isooctane (2,2,4-trimethylpentane)", 100)], AgentText.Read("isooctane (2,2,4-trimethylpentane)"));
        Assert.Equal([new AgentPart("white spirit", 37.5), new AgentPart("acetone", 62.5)], AgentText.Read(" white spirit 37,5 +acetone 62.5"));
        Assert.Equal("ethanol 20 + isooctane 80", AgentText.Of(AgentText.Read("ethanol 20 + isooctane 80")));
        Assert.Equal("agent-share", CodeOf(() => AgentText.Read("ethanol + isooctane 80")));
        Assert.Equal("agent", CodeOf(() => AgentText.Read(" + ")));
    }
}
