using System.Net;

namespace Sandarac.Server.Tests;

public sealed class ZoneTests(RunningServer server)
{
    private string Zones => $"/api/paintings/{server.Seed.Painting.Id}/zones";

    private static object Square(string name) => new { name, kind = "loss", note = "edge of a loss", geometry = Polygon([10, 10], [30, 10], [30, 20], [10, 20], [10, 10]) };

    private static object Polygon(params double[][] ring) => new { type = "Polygon", coordinates = new[] { ring } };

    [Fact]
    public async Task A_zone_is_drawn_changed_deleted_and_restored()
    {
        using var created = await server.Client.SendJsonAsync(HttpMethod.Post, Zones, Square("loss, lower left"));
        var zone = await created.JsonAsync(HttpStatusCode.Created);
        var id = zone.GetProperty("id").GetString()!;
        Assert.Equal("\"1\"", created.Headers.ETag!.Tag);
        Assert.Equal(200, zone.GetProperty("areaMm2").GetDouble(), 9);
        Assert.Equal(60, zone.GetProperty("lengthMm").GetDouble(), 9);
        Assert.Equal("Polygon", zone.GetProperty("geometry").GetProperty("type").GetString());

        using var changed = await server.Client.SendJsonAsync(HttpMethod.Put, $"/api/zones/{id}", new { name = "old loss" }, 1);
        var after = await changed.JsonAsync();
        Assert.Equal(("old loss", "loss", 2), (after.GetProperty("name").GetString(), after.GetProperty("kind").GetString(), after.GetProperty("revision").GetInt32()));
        Assert.Equal(200, after.GetProperty("areaMm2").GetDouble(), 9);

        using var deleted = await server.Client.SendJsonAsync(HttpMethod.Delete, $"/api/zones/{id}", null, 2);
        Assert.Equal(HttpStatusCode.NoContent, deleted.StatusCode);
        Assert.DoesNotContain(id, (await server.Client.GetJsonAsync(Zones)).ToString(), StringComparison.Ordinal);

        using var restored = await server.Client.SendJsonAsync(HttpMethod.Post, $"/api/zones/{id}/restore", new { });
        Assert.Equal("old loss", (await restored.JsonAsync()).GetProperty("name").GetString());
        Assert.Contains(id, (await server.Client.GetJsonAsync(Zones)).ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_change_made_on_an_old_revision_is_refused()
    {
        var id = await CreateAsync("twice");
        using var first = await server.Client.SendJsonAsync(HttpMethod.Put, $"/api/zones/{id}", Square("mine"), 1);
        await first.JsonAsync();
        using var second = await server.Client.SendJsonAsync(HttpMethod.Put, $"/api/zones/{id}", Square("yours"), 1);
        await second.ProblemAsync(HttpStatusCode.PreconditionFailed, "zone-changed");
        using var third = await server.Client.SendJsonAsync(HttpMethod.Delete, $"/api/zones/{id}", null, 1);
        await third.ProblemAsync(HttpStatusCode.PreconditionFailed, "zone-changed");
        Assert.Contains("mine", (await server.Client.GetJsonAsync(Zones)).ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Of_many_changes_at_once_on_one_revision_one_is_kept()
    {
        var id = await CreateAsync("contested");
        var answers = await Task.WhenAll(Enumerable.Range(0, 8).Select(i => server.Client.SendJsonAsync(HttpMethod.Put, $"/api/zones/{id}", Square($"hand {i}"), 1)));
        Assert.Equal(1, answers.Count(a => a.StatusCode == HttpStatusCode.OK));
        Assert.Equal(7, answers.Count(a => a.StatusCode == HttpStatusCode.PreconditionFailed));
    }

    [Theory]
    [InlineData(null)]
    [InlineData("*")]
    [InlineData("W/\"1\"")]
    [InlineData("\"one\"")]
    public async Task A_change_must_name_its_revision(string? tag)
    {
        var id = await CreateAsync("unnamed");
        using var request = new HttpRequestMessage(HttpMethod.Delete, $"/api/zones/{id}");
        if (tag is not null) request.Headers.TryAddWithoutValidation("If-Match", tag);
        using var answer = await server.Client.SendAsync(request, TestContext.Current.CancellationToken);
        await answer.ProblemAsync(HttpStatusCode.PreconditionRequired, "revision-missing");
    }

    [Theory]
    [InlineData("""{"name":"no geometry"}""", "zone-geometry")]
    [InlineData("""{"name":"null","geometry":null}""", "zone-geometry")]
    [InlineData("""{"name":"a word","geometry":"POINT (1 1)"}""", "zone-geometry")]
    [InlineData("""{"name":"a list","geometry":[1,2]}""", "zone-geometry")]
    [InlineData("""{"name":"unknown type","geometry":{"type":"Circle","coordinates":[1,2]}}""", "zone-geometry")]
    [InlineData("""{"name":"empty","geometry":{"type":"Polygon","coordinates":[]}}""", "zone-geometry")]
    [InlineData("""{"name":"crosses itself","geometry":{"type":"Polygon","coordinates":[[[0,0],[10,10],[10,0],[0,10],[0,0]]]}}""", "zone-geometry")]
    [InlineData("""{"name":"not closed","geometry":{"type":"Polygon","coordinates":[[[0,0],[10,10],[10,0]]]}}""", "zone-geometry")]
    [InlineData("""{"name":"too far","geometry":{"type":"Point","coordinates":[1e999,0]}}""", "zone-geometry")]
    [InlineData("""{"name":"NaN","geometry":{"type":"Point","coordinates":["NaN",0]}}""", "zone-geometry")]
    [InlineData("""{"name":"NaN","geometry":{"type":"Point","coordinates":[NaN,0]}}""", "request-malformed")]
    [InlineData("""{"name":""", "request-malformed")]
    [InlineData("", "request-malformed")]
    public async Task A_zone_that_cannot_be_drawn_is_refused_and_nothing_is_kept(string body, string code)
    {
        var before = (await server.Client.GetJsonAsync(Zones)).GetArrayLength();
        using var answer = await server.Client.SendJsonAsync(HttpMethod.Post, Zones, body);
        await answer.ProblemAsync(HttpStatusCode.BadRequest, code);
        Assert.Equal(before, (await server.Client.GetJsonAsync(Zones)).GetArrayLength());
    }

    [Fact]
    public async Task Ten_megabytes_are_refused()
    {
        // This client waits for leave to send the body, as a browser does not.
        using var request = new HttpRequestMessage(HttpMethod.Post, Zones) { Content = new StringContent($$"""{"name":"{{new string('x', 10_000_000)}}"}""", null, "application/json") };
        request.Headers.ExpectContinue = true;
        using var answer = await server.Client.SendAsync(request, TestContext.Current.CancellationToken);
        await answer.ProblemAsync(HttpStatusCode.RequestEntityTooLarge, "request-too-large");
    }

    [Fact]
    public async Task A_body_that_is_not_JSON_is_refused()
    {
        using var answer = await server.Client.PostAsync(Zones, new StringContent("name=x", null, "application/x-www-form-urlencoded"), TestContext.Current.CancellationToken);
        await answer.ProblemAsync(HttpStatusCode.UnsupportedMediaType, "media-type");
    }

    [Fact]
    public async Task A_freehand_zone_of_ten_thousand_points_is_taken()
    {
        var ring = Enumerable.Range(0, 10_000).Select(i => (double[])[50 + 20 * Math.Cos(i * Math.Tau / 10_000), 40 + 20 * Math.Sin(i * Math.Tau / 10_000)]).ToArray();
        ring = [.. ring, ring[0]];
        using var answer = await server.Client.SendJsonAsync(HttpMethod.Post, Zones, new { name = "freehand", geometry = Polygon(ring) });
        Assert.Equal(Math.PI * 400, (await answer.JsonAsync(HttpStatusCode.Created)).GetProperty("areaMm2").GetDouble(), 1e-3);
    }

    [Fact]
    public async Task A_name_is_kept_as_it_was_written()
    {
        const string name = "<script>alert('ä')</script> \u2028 \"flake\"";
        var id = await CreateAsync(name);
        var zone = (await server.Client.GetJsonAsync(Zones)).EnumerateArray().Single(z => z.GetProperty("id").GetString() == id);
        Assert.Equal(name, zone.GetProperty("name").GetString());
    }

    [Fact]
    public async Task Zones_of_a_painting_that_is_not_there_are_said()
    {
        using var list = await server.Client.GetAsync($"/api/paintings/{Guid.NewGuid()}/zones", TestContext.Current.CancellationToken);
        await list.ProblemAsync(HttpStatusCode.NotFound, "unknown-painting");
        using var create = await server.Client.SendJsonAsync(HttpMethod.Post, $"/api/paintings/{Guid.NewGuid()}/zones", Square("nowhere"));
        await create.ProblemAsync(HttpStatusCode.NotFound, "unknown-painting");
        using var change = await server.Client.SendJsonAsync(HttpMethod.Put, $"/api/zones/{Guid.NewGuid()}", Square("nowhere"), 1);
        await change.ProblemAsync(HttpStatusCode.NotFound, "unknown-zone");
    }

    private async Task<string> CreateAsync(string name)
    {
        using var created = await server.Client.SendJsonAsync(HttpMethod.Post, Zones, Square(name));
        return (await created.JsonAsync(HttpStatusCode.Created)).GetProperty("id").GetString()!;
    }
}
