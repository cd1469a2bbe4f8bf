using System.Net;
using System.Text.Json;

namespace Sandarac.Server.Tests;

public sealed class FindingTests(RunningServer server)
{
    private string Api => $"/api/paintings/{server.Seed.Painting.Id}";

    [Fact]
    public async Task A_finding_is_written_superseded_and_found()
    {
        using var made = await server.Client.SendJsonAsync(HttpMethod.Post, $"{Api}/findings", new { observation = "a quixotic veil", author = "Marta Oud", term = "varnish/bloom", confidence = "certain", seenOn = "2026-05-04" });
        var finding = await made.JsonAsync(HttpStatusCode.Created);
        var id = finding.GetProperty("id").GetString();
        using var changed = await server.Client.SendJsonAsync(HttpMethod.Put, $"/api/findings/{id}", new { observation = "a quixotic veil", interpretation = "bloom", author = "Marta Oud", term = "varnish/bloom" }, 1);
        Assert.Equal(finding.GetProperty("content").GetProperty("number").GetInt32(), (await changed.JsonAsync()).GetProperty("content").GetProperty("number").GetInt32());
        using var late = await server.Client.SendJsonAsync(HttpMethod.Put, $"/api/findings/{id}", new { observation = "late", author = "Jan" }, 1);
        await late.ProblemAsync(HttpStatusCode.PreconditionFailed, "finding-changed");
        var found = await server.Client.GetJsonAsync("/api/search?words=quixotic&term=bloom");
        Assert.Equal((1, id), (found.GetProperty("total").GetInt32(), found.GetProperty("hits")[0].GetProperty("id").GetString()));
        var terms = await server.Client.GetJsonAsync("/api/terms?words=bloom");
        Assert.Contains(terms.EnumerateArray(), t => t.GetProperty("key").GetString() == "varnish/bloom" && t.GetProperty("source").GetString() == "MEMORY");
    }

    [Theory]
    [InlineData("findings", """{"observation":""}""", "finding-observation")]
    [InlineData("findings", """{"observation":"x","author":"m","evidence":null}""", "value-missing")]
    [InlineData("findings", """{"observation":"x","author":"m","evidence":[{"kind":"literature"}]}""", "value-missing")]
    [InlineData("findings", """{"observation":"x","author":"m","confidence":"sure"}""", "request-malformed")]
    public async Task What_cannot_be_written_is_refused(string what, string body, string code)
    {
        using var answer = await server.Client.SendJsonAsync(HttpMethod.Post, $"{Api}/{what}", body);
        await answer.ProblemAsync(HttpStatusCode.BadRequest, code);
    }

    [Theory]
    [InlineData("leastMm2=-4", "search-area")]
    [InlineData("from=2026-02-02&to=2026-01-01", "search-days")]
    [InlineData("take=100000", "search-page")]
    [InlineData("term=nonesuch", "search-term")]
    public async Task A_question_that_asks_for_nothing_sensible_is_refused(string query, string code)
    {
        using var answer = await server.Client.GetAsync($"/api/search?{query}", TestContext.Current.CancellationToken);
        await answer.ProblemAsync(HttpStatusCode.BadRequest, code);
    }

    [Fact]
    public async Task A_zone_that_nobody_proposed_is_not_judged()
    {
        using var made = await server.Client.SendJsonAsync(HttpMethod.Post, $"{Api}/zones", new { name = "mine", geometry = JsonElement.Parse("""{"type":"Point","coordinates":[5,5]}""") });
        var id = (await made.JsonAsync(HttpStatusCode.Created)).GetProperty("id").GetString();
        using var kept = await server.Client.SendJsonAsync(HttpMethod.Post, $"/api/zones/{id}/keep", null, 1);
        await kept.ProblemAsync(HttpStatusCode.BadRequest, "not-a-candidate");
        using var rejected = await server.Client.SendJsonAsync(HttpMethod.Post, $"/api/zones/{id}/reject", new { reason = "no" }, 1);
        await rejected.ProblemAsync(HttpStatusCode.BadRequest, "not-a-candidate");
    }
}
