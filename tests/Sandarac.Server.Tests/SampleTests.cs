using System.Net;
using System.Text.Json;
using System.Text.RegularExpressions;

namespace Sandarac.Server.Tests;

public sealed partial class SampleTests(RunningServer server)
{
    private readonly CancellationToken _stop = TestContext.Current.CancellationToken;

    private string Api => $"/api/paintings/{server.Seed.Painting.Id}";

    private static string Id(JsonElement shape) => shape.GetProperty("id").GetString()!;

    private async Task<JsonElement> CreateAsync(string what, object body)
    {
        using var answer = await server.Client.SendJsonAsync(HttpMethod.Post, $"{Api}/{what}", body);
        return await answer.JsonAsync(HttpStatusCode.Created);
    }

    private async Task TakeOutAsync(string what, JsonElement shape)
    {
        using var answer = await server.Client.SendJsonAsync(HttpMethod.Delete, $"/api/{what}/{Id(shape)}", null, shape.GetProperty("revision").GetInt32());
        Assert.Equal(HttpStatusCode.NoContent, answer.StatusCode);
    }

    [Fact]
    public async Task A_sample_is_written_corrected_taken_out_and_its_history_read()
    {
        var sample = await CreateAsync("samples", new { number = "A1", x = 31.5, y = 20, site = "existing-damage", takenOn = "2026-05-04", why = "how many grounds?" });
        Assert.Equal("existing-damage", sample.GetProperty("content").GetProperty("site").GetString());
        using var changed = await server.Client.SendJsonAsync(HttpMethod.Put, $"/api/samples/{Id(sample)}", new { number = "A1", x = 31.5, y = 20, observation = "two whites" }, 1);
        Assert.Equal("\"2\"", changed.Headers.ETag!.Tag);
        using var late = await server.Client.SendJsonAsync(HttpMethod.Put, $"/api/samples/{Id(sample)}", new { number = "A1" }, 1);
        await late.ProblemAsync(HttpStatusCode.PreconditionFailed, "sample-changed");
        using var nameless = await server.Client.SendJsonAsync(HttpMethod.Delete, $"/api/samples/{Id(sample)}", null);
        await nameless.ProblemAsync(HttpStatusCode.PreconditionRequired, "revision-missing");
        var here = await server.Client.GetJsonAsync($"{Api}/here?x=33&y=22");
        Assert.Equal(2.5, here.GetProperty("samples").EnumerateArray().Single(s => s.GetProperty("number").GetString() == "A1").GetProperty("distanceMm").GetDouble(), 9);
        await TakeOutAsync("samples", await changed.JsonAsync());
        var history = await server.Client.GetJsonAsync($"/api/samples/{Id(sample)}/history");
        Assert.Equal(["created", "changed", "deleted"], history.EnumerateArray().Select(h => h.GetProperty("what").GetString()));
        Assert.Equal("how many grounds?", history[0].GetProperty("content").GetProperty("why").GetString());
    }

    [Theory]
    [InlineData("samples", """{"number":"N","x":NaN,"y":1}""", "request-malformed")]
    [InlineData("samples", """{"number":"N","x":"NaN","y":1}""", "request-malformed")]
    [InlineData("samples", """{"number":"N","x":1e300,"y":1}""", "sample-place")]
    [InlineData("samples", """{"number":null}""", "value-missing")]
    [InlineData("samples", """{"number":"N","micrographs":null}""", "value-missing")]
    [InlineData("samples", """{"number":"N","site":"moon"}""", "request-malformed")]
    [InlineData("samples", "{}", "name")]
    [InlineData("stages", """{"name":"s","kind":99}""", "request-malformed")]
    [InlineData("relations", """{"kind":"over","note":"seen"}""", "relation-self")]
    public async Task What_cannot_be_written_is_refused(string what, string body, string code)
    {
        using var answer = await server.Client.SendJsonAsync(HttpMethod.Post, $"{Api}/{what}", body);
        await answer.ProblemAsync(HttpStatusCode.BadRequest, code);
    }

    [Fact]
    public async Task A_note_of_a_hundred_thousand_letters_and_what_is_not_there_are_refused()
    {
        using var note = await server.Client.SendJsonAsync(HttpMethod.Post, $"{Api}/stages", new { name = "s", note = new string('n', 100_000) });
        await note.ProblemAsync(HttpStatusCode.BadRequest, "text-too-long");
        using var layer = await server.Client.SendJsonAsync(HttpMethod.Post, $"{Api}/section-layers", new { sampleId = Guid.NewGuid(), number = "1", name = "ground" });
        await layer.ProblemAsync(HttpStatusCode.NotFound, "unknown-sample");
        using var relation = await server.Client.SendJsonAsync(HttpMethod.Post, $"{Api}/relations", new { stageId = Guid.NewGuid(), otherId = Guid.NewGuid(), note = "seen" });
        await relation.ProblemAsync(HttpStatusCode.NotFound, "unknown-stage");
        using var nobody = await server.Client.GetAsync($"/api/paintings/{Guid.NewGuid()}/build-up", _stop);
        await nobody.ProblemAsync(HttpStatusCode.NotFound, "unknown-painting");
    }

    [Fact]
    public async Task The_build_up_follows_from_layers_and_statements_and_says_what_contradicts_it()
    {
        var (sky, sea) = (await CreateAsync("stages", new { name = "sky <b>", kind = "paint" }), await CreateAsync("stages", new { name = "sea", kind = "paint" }));
        var sample = await CreateAsync("samples", new { number = "B1" });
        var layers = new[] { await CreateAsync("section-layers", new { sampleId = Id(sample), number = "1", name = "blue", stageId = Id(sky) }), await CreateAsync("section-layers", new { sampleId = Id(sample), number = "2", name = "green", stageId = Id(sea) }) };
        var stated = await CreateAsync("relations", new { stageId = Id(sky), kind = "over", otherId = Id(sea), note = "seen at the horizon" });
        var known = await server.Client.GetJsonAsync($"{Api}/build-up");
        var chain = Assert.Single(known.GetProperty("contradictions").EnumerateArray()).GetProperty("chain").EnumerateArray().Select(r => r.GetString());
        Assert.Equal([Id(layers[1]), Id(stated)], chain.Order());
        using var svg = await server.Client.GetAsync($"{Api}/build-up.svg", _stop);
        Assert.Equal("image/svg+xml", svg.Content.Headers.ContentType!.MediaType);
        var page = await server.Client.GetStringAsync($"/paintings/{server.Seed.Painting.Id}/build-up", _stop);
        Assert.Contains("What contradicts itself", page, StringComparison.Ordinal);
        Assert.DoesNotContain("sky <b>", page, StringComparison.Ordinal);
        Assert.DoesNotMatch(@"\sstyle=", page);
        foreach (var (what, shape) in new[] { ("relations", stated), ("section-layers", layers[0]), ("section-layers", layers[1]), ("samples", sample), ("stages", sky), ("stages", sea) }) await TakeOutAsync(what, shape);
        Assert.Empty((await server.Client.GetJsonAsync($"{Api}/build-up")).GetProperty("groups").EnumerateArray());
    }

    [Fact]
    public async Task A_form_writes_a_record_and_says_what_is_wrong_with_one()
    {
        var path = $"/paintings/{server.Seed.Painting.Id}/sections?sample=new";
        using var refused = await PostAsync(path, "name=\"number\"", ("number", "C1"), ("from-left", "far"), ("from-bottom", ""), ("site", "Edge"));
        var page = WebUtility.HtmlDecode(await refused.Content.ReadAsStringAsync(_stop));
        Assert.Contains("From the left edge: \"far\" is not a number.", page, StringComparison.Ordinal);
        Assert.Contains("value=\"C1\"", page, StringComparison.Ordinal);
        using var written = await PostAsync(path, "name=\"number\"", ("number", "C1"), ("from-left", "12,5"), ("from-bottom", "30"), ("site", "Edge"));
        Assert.Equal(HttpStatusCode.Redirect, written.StatusCode);
        var sample = (await server.Client.GetJsonAsync($"{Api}/samples")).EnumerateArray().Single(s => s.GetProperty("content").GetProperty("number").GetString() == "C1");
        Assert.Equal((12.5, 60.1), (sample.GetProperty("content").GetProperty("x").GetDouble(), Math.Round(sample.GetProperty("content").GetProperty("y").GetDouble(), 9)));
        await TakeOutAsync("samples", sample);
    }

    [Fact]
    public async Task What_a_stage_was_before_is_read_on_its_page_and_brought_back_there()
    {
        var stage = await CreateAsync("stages", new { name = "sky", kind = "paint" });
        using var changed = await server.Client.SendJsonAsync(HttpMethod.Put, $"/api/stages/{Id(stage)}", new { name = "evening sky", kind = "other" }, 1);
        var path = $"/paintings/{server.Seed.Painting.Id}/build-up?stage={Id(stage)}";
        Assert.Contains("name: evening sky; kind: kind not said", await server.Client.GetStringAsync(path, _stop), StringComparison.Ordinal);
        using var back = await PostAsync(path, "Go back to revision 1");
        Assert.Equal(HttpStatusCode.Redirect, back.StatusCode);
        var now = await server.Client.GetJsonAsync($"/api/stages/{Id(stage)}");
        Assert.Equal(("sky", 3), (now.GetProperty("content").GetProperty("name").GetString(), now.GetProperty("revision").GetInt32()));
        await TakeOutAsync("stages", now);
        using var restored = await PostAsync(path, "\"Bring back sky\"");
        now = await server.Client.GetJsonAsync($"/api/stages/{Id(stage)}");
        Assert.False(now.GetProperty("isDeleted").GetBoolean());
        await TakeOutAsync("stages", now);
    }

    private async Task<HttpResponseMessage> PostAsync(string path, string holds, params (string Name, string Value)[] entries)
    {
        using var page = await server.Client.GetAsync(path, _stop);
        var form = (await page.Content.ReadAsStringAsync(_stop)).Split("<form").Single(f => f.Contains(holds, StringComparison.Ordinal));
        var fields = Hidden().Matches(form).ToDictionary(m => m.Groups[1].Value, m => WebUtility.HtmlDecode(m.Groups[2].Value));
        foreach (var (name, value) in entries) fields[name] = value;
        using var request = new HttpRequestMessage(HttpMethod.Post, path) { Content = new FormUrlEncodedContent(fields) };
        request.Headers.Add("Cookie", page.Headers.GetValues("Set-Cookie").Select(c => c.Split(';')[0]));
        return await server.Client.SendAsync(request, _stop);
    }

    [GeneratedRegex("""<input type="hidden" name="([^"]+)" value="([^"]*)" """)]
    private static partial Regex Hidden();
}
