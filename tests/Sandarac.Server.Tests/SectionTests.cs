using System.Net;
using System.Text.Json;

namespace Sandarac.Server.Tests;

public sealed class SectionTests(RunningServer server)
{
    private readonly CancellationToken _stop = TestContext.Current.CancellationToken;

    private string Api => $"/api/paintings/{server.Seed.Painting.Id}";

    private async Task<JsonElement> CreateAsync(string what, object body)
    {
        using var answer = await server.Client.SendJsonAsync(HttpMethod.Post, $"{Api}/{what}", body);
        return await answer.JsonAsync(HttpStatusCode.Created);
    }

    [Fact]
    public async Task A_sample_without_micrographs_says_why_nothing_is_measured_and_its_layers_are_drawn()
    {
        var sample = await CreateAsync("samples", new { number = "D1 <b>", x = 20, y = 30 });
        var id = sample.GetProperty("id").GetString();
        var section = await server.Client.GetJsonAsync($"/api/samples/{id}/section");
        Assert.Contains("visible light", section.GetProperty("problem").GetString(), StringComparison.Ordinal);
        Assert.Equal(JsonValueKind.Null, section.GetProperty("layers").ValueKind);
        using var other = await server.Client.SendJsonAsync(HttpMethod.Post, $"/api/samples/{id}/layers", new { runId = server.Seed.Numbers.Id });
        await other.ProblemAsync(HttpStatusCode.BadRequest, "run-not-of-sample");
        using var none = await server.Client.SendJsonAsync(HttpMethod.Post, $"/api/samples/{id}/layers", new { });
        await none.ProblemAsync(HttpStatusCode.BadRequest, "run-missing");
        Assert.Empty((await server.Client.GetJsonAsync($"/api/runs/{server.Seed.Numbers.Id}/proposals")).EnumerateArray());
        using var bare = await server.Client.GetAsync($"{Api}/columns.svg?samples={id}", _stop);
        await bare.ProblemAsync(HttpStatusCode.BadRequest, "no-thickness");
        using var stray = await server.Client.GetAsync($"{Api}/columns.svg?samples=moon", _stop);
        await stray.ProblemAsync(HttpStatusCode.NotFound, "unknown-sample");

        var layer = await CreateAsync("section-layers", new { sampleId = id, number = "1", name = "ground", meanUm = 90, thicknessOrigin = "by ruler" });
        using var svg = await server.Client.GetAsync($"{Api}/columns.svg", _stop);
        Assert.Equal("image/svg+xml", svg.Content.Headers.ContentType!.MediaType);
        var page = await server.Client.GetStringAsync($"/paintings/{server.Seed.Painting.Id}/sections?sample={id}", _stop);
        Assert.Contains("Drawn to scale", page, StringComparison.Ordinal);
        Assert.Contains("hatch-ground", page, StringComparison.Ordinal);
        Assert.DoesNotContain("D1 <b>", page, StringComparison.Ordinal);
        Assert.DoesNotMatch(@"\sstyle=", page);
        foreach (var (what, row) in new[] { ("section-layers", layer), ("samples", sample) })
        {
            using var gone = await server.Client.SendJsonAsync(HttpMethod.Delete, $"/api/{what}/{row.GetProperty("id").GetString()}", null, 1);
            Assert.Equal(HttpStatusCode.NoContent, gone.StatusCode);
        }
    }
}
