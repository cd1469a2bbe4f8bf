using System.Net;

namespace Sandarac.Server.Tests;

public sealed class CornerTests
{
    [Fact]
    public async Task Corners_set_by_hand_align_again_and_the_layer_has_a_new_version()
    {
        await using var server = new RunningServer();
        await server.InitializeAsync();
        var (photograph, painting) = ($"/api/photographs/{server.Seed.Deep.Id}", $"/api/paintings/{server.Seed.Painting.Id}");
        var before = await VersionAsync(server, painting);
        double[][] corners = [[10, 12], [1190, 9], [1195, 890], [6, 893]];

        using var asked = await server.Client.SendJsonAsync(HttpMethod.Put, $"{photograph}/corners", new { corners });
        var run = (await asked.JsonAsync(HttpStatusCode.Accepted)).GetProperty("runId").GetGuid();
        for (var i = 0; (await server.Client.GetJsonAsync($"/api/runs/{run}")).GetProperty("state").GetString() is "queued" or "running"; i++)
        {
            Assert.True(i < 300, "The alignment does not end.");
            await Task.Delay(100, TestContext.Current.CancellationToken);
        }
        Assert.Equal("done", (await server.Client.GetJsonAsync($"/api/runs/{run}")).GetProperty("state").GetString());

        Assert.Equal("[[10,12],[1190,9],[1195,890],[6,893]]", (await server.Client.GetJsonAsync($"{photograph}/corners")).GetProperty("corners").GetRawText());
        var history = (await server.Client.GetJsonAsync(photograph)).GetProperty("alignments");
        Assert.Equal(["corners-found", "corners-by-hand"], history.EnumerateArray().Select(a => a.GetProperty("method").GetString()));
        Assert.Equal([false, true], history.EnumerateArray().Select(a => a.GetProperty("inForce").GetBoolean()));

        var after = await VersionAsync(server, painting);
        Assert.NotEqual(before, after);
        var tile = $"/api/layers/p-{server.Seed.Deep.Id}/tiles/0/0/0";
        using var old = await server.Client.GetAsync($"{tile}?v={before}", TestContext.Current.CancellationToken);
        await old.ProblemAsync(HttpStatusCode.NotFound, "unknown-version");
        using var now = await server.Client.GetAsync($"{tile}?v={after}", TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.OK, now.StatusCode);
    }

    private static async Task<string> VersionAsync(RunningServer server, string painting) =>
        (await server.Client.GetJsonAsync(painting)).GetProperty("layers").EnumerateArray().Single(l => l.GetProperty("id").GetString() == $"p-{server.Seed.Deep.Id}").GetProperty("version").GetString()!;
}

public sealed class CornerRefusalTests(RunningServer server)
{
    [Theory]
    [InlineData("""{}""")]
    [InlineData("""{"corners":[]}""")]
    [InlineData("""{"corners":[[0,0],[1,0],[1,1]]}""")]
    [InlineData("""{"corners":[[0,0],[1,0],[1,1],[0]]}""")]
    [InlineData("""{"corners":[[0,0],[1000,0],[0,900],[1000,900]]}""")] // crosses itself
    [InlineData("""{"corners":[[5,5],[5,5],[5,5],[5,5]]}""")]
    [InlineData("""{"corners":[[0,0],[1e308,0],[1e308,1e308],[0,1e308]]}""")]
    public async Task What_are_not_four_corners_is_refused(string body)
    {
        using var answer = await server.Client.SendJsonAsync(HttpMethod.Put, $"/api/photographs/{server.Seed.Shallow.Id}/corners", body);
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType?.MediaType);
    }

    [Fact]
    public async Task Corners_of_a_photograph_that_is_not_there_are_said()
    {
        using var answer = await server.Client.SendJsonAsync(HttpMethod.Put, $"/api/photographs/{Guid.NewGuid()}/corners", new { corners = (double[][])[[0, 0], [9, 0], [9, 9], [0, 9]] });
        await answer.ProblemAsync(HttpStatusCode.NotFound, "unknown-photograph");
    }
}
