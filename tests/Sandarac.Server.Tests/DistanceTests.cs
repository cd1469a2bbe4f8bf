using System.Net;

namespace Sandarac.Server.Tests;

public sealed class DistanceTests
{
    [Fact]
    public async Task A_measured_distance_corrects_the_size_and_aligns_again()
    {
        await using var server = new RunningServer();
        await server.InitializeAsync();
        var painting = $"/api/paintings/{server.Seed.Painting.Id}";
        using var asked = await server.Client.SendJsonAsync(HttpMethod.Post, $"{painting}/distance", new { from = (double[])[10, 10], to = (double[])[10, 60], mm = 75 });
        var runs = (await asked.JsonAsync(HttpStatusCode.Accepted)).GetProperty("runIds");
        var run = Assert.Single(runs.EnumerateArray()).GetGuid();
        for (var i = 0; (await server.Client.GetJsonAsync($"/api/runs/{run}")).GetProperty("state").GetString() is "queued" or "running"; i++)
        {
            Assert.True(i < 300, "The alignment does not end.");
            await Task.Delay(100, TestContext.Current.CancellationToken);
        }
        var ended = await server.Client.GetJsonAsync($"/api/runs/{run}");
        Assert.Equal(("done", "VIS_01.tif"), (ended.GetProperty("state").GetString(), ended.GetProperty("inputs")[0].GetProperty("fileName").GetString()));

        var now = await server.Client.GetJsonAsync(painting);
        Assert.Equal(1.5 * 120.1, now.GetProperty("widthMm").GetDouble(), 9);
        Assert.Equal(1.5 * 90.1, now.GetProperty("heightMm").GetDouble(), 9);
        Assert.Equal("distance", now.GetProperty("sizeOrigin").GetString());
        var layer = now.GetProperty("layers").EnumerateArray().Single(l => l.GetProperty("id").GetString() == $"p-{server.Seed.Deep.Id}");
        Assert.Equal(0.15, layer.GetProperty("mmPerPixel").GetDouble(), 6);
    }
}

public sealed class DistanceRefusalTests(RunningServer server)
{
    [Theory]
    [InlineData("""{}""")]
    [InlineData("""{"from":[10,10],"to":[10,60]}""")]
    [InlineData("""{"from":[10,10],"to":[10],"mm":75}""")]
    [InlineData("""{"from":[10,10],"mm":75}""")]
    [InlineData("""{"from":[10,10],"to":[10,60],"mm":0}""")]
    [InlineData("""{"from":[10,10],"to":[10,60],"mm":-5}""")]
    [InlineData("""{"from":[10,10],"to":[10,60],"mm":NaN}""")]
    [InlineData("""{"from":[10,10],"to":[10,60],"mm":"NaN"}""")]
    [InlineData("""{"from":[10,10],"to":[10,60],"mm":1e308}""")]
    [InlineData("""{"from":[10,10],"to":[10,10],"mm":75}""")]
    [InlineData("""{"from":[1e308,-1e308],"to":[-1e308,1e308],"mm":75}""")]
    [InlineData("""{"from":[10,10],"to":[10,60],"mm":50000}""")]
    [InlineData("""{"from":[10,10],"to":[10,60],"mm":0.1}""")]
    public async Task What_is_no_measured_distance_is_refused_and_changes_nothing(string body)
    {
        var painting = $"/api/paintings/{server.Seed.Painting.Id}";
        using var answer = await server.Client.SendJsonAsync(HttpMethod.Post, $"{painting}/distance", body);
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType?.MediaType);
        var now = await server.Client.GetJsonAsync(painting);
        Assert.Equal((120.1, "measured"), (now.GetProperty("widthMm").GetDouble(), now.GetProperty("sizeOrigin").GetString()));
    }

    [Fact]
    public async Task A_painting_that_is_not_there_is_said()
    {
        using var answer = await server.Client.SendJsonAsync(HttpMethod.Post, $"/api/paintings/{Guid.NewGuid()}/distance", new { from = (double[])[10, 10], to = (double[])[10, 60], mm = 75 });
        await answer.ProblemAsync(HttpStatusCode.NotFound, "unknown-painting");
    }
}
