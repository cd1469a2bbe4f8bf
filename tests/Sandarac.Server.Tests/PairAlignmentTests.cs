using System.Net;

namespace Sandarac.Server.Tests;

public sealed class PairAlignmentTests
{
    [Fact]
    public async Task A_photograph_off_the_plane_is_aligned_by_pairs_which_are_kept()
    {
        await using var server = new RunningServer();
        await server.InitializeAsync();
        var photograph = $"/api/photographs/{server.Seed.Shallow.Id}";
        double[][] corners = [[100, 100], [1100, 120], [1080, 800], [90, 780], [600, 450]];
        var pairs = corners.Select((c, i) => new { place = new[] { c[0] / 10, c[1] / 10 }, pixel = c, used = i < 4 });

        using var asked = await server.Client.SendJsonAsync(HttpMethod.Post, $"{photograph}/pairs", new { reference = server.Seed.Deep.Id, model = "auto", pairs });
        Assert.Equal("done", await StateAsync(server, (await asked.JsonAsync(HttpStatusCode.Accepted)).GetProperty("runId").GetGuid()));

        var now = (await server.Client.GetJsonAsync(photograph)).GetProperty("alignments").EnumerateArray().Single(a => a.GetProperty("inForce").GetBoolean());
        Assert.Equal(("pairs-by-hand", "aligned"), (now.GetProperty("method").GetString(), now.GetProperty("verdict").GetString()));
        Assert.Equal(0, now.GetProperty("residuals").GetProperty("p95Mm").GetDouble(), 6);
        var kept = (await server.Client.GetJsonAsync($"{photograph}/pairs")).EnumerateArray().ToList();
        Assert.Equal([true, true, true, true, false], kept.Select(p => p.GetProperty("used").GetBoolean()));
        Assert.Equal("[60,45]", kept[4].GetProperty("place").GetRawText());
    }

    private static async Task<string> StateAsync(RunningServer server, Guid run)
    {
        for (var i = 0; i < 300; i++)
        {
            var now = await server.Client.GetJsonAsync($"/api/runs/{run}");
            if (now.GetProperty("state").GetString() is { } state and not ("queued" or "running")) return state == "done" ? state : now.GetProperty("problem").GetRawText();
            await Task.Delay(100, TestContext.Current.CancellationToken);
        }
        throw new TimeoutException("The alignment does not end.");
    }
}
