using System.Net;

namespace Sandarac.Server.Tests;

public sealed class TreatmentTests(RunningServer server)
{
    private string Api => $"/api/paintings/{server.Seed.Painting.Id}";

    private async Task<string> WrittenAsync(string what, object body)
    {
        using var made = await server.Client.SendJsonAsync(HttpMethod.Post, $"{Api}/{what}", body);
        return (await made.JsonAsync(HttpStatusCode.Created)).GetProperty("id").GetString()!;
    }

    private Task<string> ZoneAsync(string name, double width) => WrittenAsync("zones", new { name, geometry = new { type = "Polygon", coordinates = new[] { new[] { new[] { 0.0, 0 }, [width, 0], [width, 50], [0, 50], [0, 0] } } } });

    private static object Option(Guid id, Guid step, string zone, object? hours) => new
    {
        id, name = "Thin the varnish", aims = "The light is seen again.", hours, currency = "",
        steps = new[] { new { id = step, name = "A thinner varnish", kind = "cleaning", operation = "clean/varnish removal", zones = new[] { zone }, materials = "isooctane", risks = "glazes", irreversible = "what is taken off" } },
    };

    [Fact]
    public async Task A_treatment_is_proposed_approved_logged_and_measured()
    {
        var (band, left, option, step) = (await ZoneAsync("band", 100), await ZoneAsync("left", 25), Guid.NewGuid(), Guid.NewGuid());
        var proposal = await WrittenAsync("proposals", new { title = "A thinner varnish", options = new[] { Option(option, step, band, new { low = 5, high = 8, basis = "a timed test" }) } });
        var approval = new { optionId = option, custodian = "Ines Vaart", role = "keeper of paintings", organisation = "Invented Coast Museum", how = "signed letter" };
        using var stale = await server.Client.SendJsonAsync(HttpMethod.Post, $"/api/proposals/{proposal}/approval", approval, 2);
        await stale.ProblemAsync(HttpStatusCode.PreconditionFailed, "proposal-changed");
        using var approved = await server.Client.SendJsonAsync(HttpMethod.Post, $"/api/proposals/{proposal}/approval", approval, 1);
        Assert.Equal(64, (await approved.JsonAsync(HttpStatusCode.Created)).GetProperty("sha256").GetString()!.Length);
        Assert.Equal(0, (await server.Client.GetJsonAsync($"/api/proposals/{proposal}/approval")).GetProperty("problems").GetArrayLength());
        using var edited = await server.Client.SendJsonAsync(HttpMethod.Put, $"/api/proposals/{proposal}", new { title = "Another" }, 1);
        await edited.ProblemAsync(HttpStatusCode.BadRequest, "proposal-approved");
        using var made = await server.Client.SendJsonAsync(HttpMethod.Post, $"/api/proposals/{proposal}/steps", null);
        var begun = (await made.JsonAsync()).EnumerateArray().Single().GetProperty("id").GetString();
        await WrittenAsync("log-entries", new { stepId = begun, on = "2026-03-02", who = "Marta Oud", what = "Swabs.", hours = 2, zones = new[] { left }, materials = new[] { new { name = "isooctane", amount = 20, unit = "mL", batch = "B7", use = "used" } } });
        var progress = (await server.Client.GetJsonAsync($"{Api}/treatment/progress")).EnumerateArray().Single(p => p.GetProperty("stepId").GetString() == begun);
        Assert.Equal(("approved", 0.25), (progress.GetProperty("standing").GetString(), progress.GetProperty("days")[0].GetProperty("share").GetDouble()));
        var places = await server.Client.GetJsonAsync($"/api/treatment-steps/{begun}/places?day=2026-03-02");
        Assert.Equal(["done", "to-do"], places.GetProperty("features").EnumerateArray().Select(f => f.GetProperty("properties").GetProperty("state").GetString()));
        Assert.Equal(("done", "to do"), (places.GetProperty("looks").GetProperty("done").GetProperty("name").GetString(), places.GetProperty("looks").GetProperty("to-do").GetProperty("name").GetString()));
        Assert.Equal("Polygon", places.GetProperty("features")[0].GetProperty("geometry").GetProperty("type").GetString());
        Assert.Equal(["to-do"], (await server.Client.GetJsonAsync($"/api/treatment-steps/{begun}/places?day=2026-03-01")).GetProperty("features").EnumerateArray().Select(f => f.GetProperty("properties").GetProperty("state").GetString()));
        Assert.Contains("An interval needs 3", (await server.Client.GetJsonAsync($"/api/treatment-steps/{begun}/estimate")).GetProperty("noAnswer").GetString(), StringComparison.Ordinal);
        using var later = await server.Client.SendJsonAsync(HttpMethod.Post, $"/api/proposals/{proposal}/supersede", null);
        var laterId = (await later.JsonAsync(HttpStatusCode.Created)).GetProperty("id").GetString();
        Assert.Equal("same", (await server.Client.GetJsonAsync($"/api/proposals/{laterId}/difference"))[0].GetProperty("change").GetString());
    }

    [Fact]
    public async Task What_nobody_approved_takes_no_entry()
    {
        var step = await WrittenAsync("treatment-steps", new { name = "Facing", kind = "consolidation", operation = "stabilise/facing" });
        using var entry = await server.Client.SendJsonAsync(HttpMethod.Post, $"{Api}/log-entries", new { stepId = step, on = "2026-03-02", who = "Marta Oud", what = "Tissue." });
        await entry.ProblemAsync(HttpStatusCode.BadRequest, "step-not-approved");
    }

    [Theory]
    [InlineData("""{"title":"x","options":[null]}""", "value-missing")]
    [InlineData("""{"title":"x","options":[{"id":"5f0c6a44-19e7-4b0c-9a2f-0a4c1f6b2a11","name":"a","aims":"","steps":null,"currency":""}]}""", "value-missing")]
    [InlineData("""{"title":"x","options":[{"id":"5f0c6a44-19e7-4b0c-9a2f-0a4c1f6b2a11","name":"a","aims":"","steps":[],"currency":"","hours":{"low":9,"high":3,"basis":"log"}}]}""", "range")]
    [InlineData("""{"title":"x","options":[{"id":"5f0c6a44-19e7-4b0c-9a2f-0a4c1f6b2a11","name":null,"aims":"","steps":[],"currency":""}]}""", "name")]
    [InlineData("""{"title":"x","options":[{"id":"5f0c6a44-19e7-4b0c-9a2f-0a4c1f6b2a11","name":"a","aims":null,"steps":[],"currency":""}]}""", "value-missing")]
    public async Task Hostile_proposals_are_refused(string body, string code)
    {
        using var answer = await server.Client.SendJsonAsync(HttpMethod.Post, $"{Api}/proposals", body);
        await answer.ProblemAsync(HttpStatusCode.BadRequest, code);
    }

    [Theory]
    [InlineData("proposals/01a21561-7337-7790-a69f-a604430fca6f/approval", HttpStatusCode.BadRequest, "proposal-not-approved")]
    [InlineData("proposals/01a21561-7337-7790-a69f-a604430fca6f/difference", HttpStatusCode.NotFound, "unknown-proposal")]
    [InlineData("treatment-steps/01a21561-7337-7790-a69f-a604430fca6f/places", HttpStatusCode.NotFound, "unknown-step")]
    [InlineData("treatment-steps/01a21561-7337-7790-a69f-a604430fca6f/estimate", HttpStatusCode.NotFound, "unknown-step")]
    [InlineData("paintings/01a21561-7337-7790-a69f-a604430fca6f/treatment/progress", HttpStatusCode.NotFound, "unknown-painting")]
    public async Task What_is_not_there_is_said(string what, HttpStatusCode status, string code)
    {
        using var answer = await server.Client.GetAsync($"/api/{what}", TestContext.Current.CancellationToken);
        await answer.ProblemAsync(status, code);
    }
}
