using System.Net;

namespace Sandarac.Server.Tests;

public sealed class CleaningTests(RunningServer server)
{
    private string Api => $"/api/paintings/{server.Seed.Painting.Id}";

    private static object Test(double x, string passage, object? result = null) => new
    {
        x, y = 40.0, passage, aim = "varnish", agentKind = "solvent", agent = new[] { new { name = "ethanol", percent = 20.0 }, new { name = "isooctane", percent = 80.0 } }, carrier = "rolled swab", plannedSeconds = 20.0,
        doneOn = result is null ? null : "2026-05-04", doneBy = "Marta Oud", onVarnish = result is null ? "not-stated" : "removed", onOriginal = result ?? "not-stated", ultravioletAfter = "duller", verdict = result is null ? "open" : "too-strong",
    };

    private async Task<string> WrittenAsync(object test)
    {
        using var made = await server.Client.SendJsonAsync(HttpMethod.Post, $"{Api}/cleaning-tests", test);
        return (await made.JsonAsync(HttpStatusCode.Created)).GetProperty("id").GetString()!;
    }

    private Task<string> PageAsync(string query) => server.Client.GetStringAsync($"/paintings/{server.Seed.Painting.Id}/cleaning{query}", TestContext.Current.CancellationToken);

    [Fact]
    public async Task A_test_is_planned_done_flagged_placed_and_shown()
    {
        var planned = await WrittenAsync(Test(31, "light"));
        var further = await WrittenAsync(Test(33, "dark", "softened"));
        var flags = (await server.Client.GetJsonAsync($"/api/cleaning-tests/{further}/flags")).EnumerateArray().Select(f => f.GetProperty("code").GetString()).ToList();
        Assert.Equal(["touched-original"], flags);
        var spots = (await server.Client.GetJsonAsync($"{Api}/cleaning-spots")).EnumerateArray().Where(s => new[] { planned, further }.Contains(s.GetProperty("id").GetString())).ToList();
        Assert.Equal([(31.0, false, false), (33.0, true, true)], spots.Select(s => (s.GetProperty("x").GetDouble(), s.GetProperty("isDone").GetBoolean(), s.GetProperty("wentFurther").GetBoolean())));
        var near = (await server.Client.GetJsonAsync($"{Api}/here?x=33&y=41")).GetProperty("tests").EnumerateArray().First();
        Assert.Equal((further, "ethanol 20 + isooctane 80", 1), (near.GetProperty("id").GetString(), near.GetProperty("agent").GetString(), near.GetProperty("distanceMm").GetDouble()));
        var page = await PageAsync($"?test={further}");
        Assert.All(["It went further than planned", "would act, as far as round regions go", "Local rules, the current safety data sheet"], text => Assert.Contains(text, page, StringComparison.Ordinal));
        Assert.DoesNotContain(" safe ", page, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("value=\"acetone 10 &#x2B; isooctane 90\"", await PageAsync("?layer=Varnish&agent=acetone+10+%2B+isooctane+90"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_change_on_a_revision_that_is_past_is_refused_as_everywhere()
    {
        var test = await WrittenAsync(Test(35, "light"));
        using var stale = await server.Client.SendJsonAsync(HttpMethod.Put, $"/api/cleaning-tests/{test}", Test(36, "light"), 9);
        await stale.ProblemAsync(HttpStatusCode.PreconditionFailed, "cleaning-test-changed");
        using var identity = await server.Client.SendJsonAsync(HttpMethod.Put, $"{Api}/identity", new { title = "Another", technique = "", support = "", accessionNumber = "" }, 99);
        await identity.ProblemAsync(HttpStatusCode.PreconditionFailed, "painting-changed");
    }

    [Fact]
    public async Task What_is_wrong_is_told()
    {
        using var further = await server.Client.SendJsonAsync(HttpMethod.Post, $"{Api}/cleaning-tests", new { aim = "original", agent = new[] { new { name = "water", percent = 100.0 } } });
        await further.ProblemAsync(HttpStatusCode.BadRequest, "test-aim");
        using var nothing = await server.Client.SendJsonAsync(HttpMethod.Post, $"{Api}/cleaning-tests", new { aim = "dirt" });
        await nothing.ProblemAsync(HttpStatusCode.BadRequest, "test-agent");
        Assert.Contains("entry-agent", await PageAsync("?agent=ethanol+%2B+isooctane&layer=Nonsense&step=-5&test=none"), StringComparison.Ordinal);
    }
}
