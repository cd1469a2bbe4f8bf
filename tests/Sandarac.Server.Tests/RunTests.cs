using System.Net;
using System.Text.Json;
using Sandarac.Studio.Record;

namespace Sandarac.Server.Tests;

public sealed class RunTests(RunningServer server)
{
    private string Runs => $"/api/paintings/{server.Seed.Painting.Id}/runs";

    [Fact]
    public async Task A_reading_is_run_followed_to_its_end_and_not_run_twice()
    {
        var ask = new { reading = "photograph-quality", parameters = new Dictionary<string, object> { ["warn-noise"] = 3.5 }, inputs = new { photograph = new[] { server.Seed.Shallow.Id } } };
        using var asked = await server.Client.SendJsonAsync(HttpMethod.Post, Runs, ask);
        var id = (await asked.JsonAsync(HttpStatusCode.Accepted)).GetProperty("runId").GetGuid();
        Assert.Equal($"/api/runs/{id}", asked.Headers.Location!.OriginalString);

        var run = await EndAsync(id);
        Assert.True(run.GetProperty("state").GetString() == "done", run.ToString());
        Assert.Equal("3.5", run.GetProperty("parameters").GetProperty("warn-noise").GetString());
        Assert.NotEmpty(run.GetProperty("figures").EnumerateArray());
        Assert.All(run.GetProperty("figures").EnumerateArray(), f => Assert.NotEqual(f.GetProperty("name").GetString(), f.GetProperty("title").GetString()));

        using var again = await server.Client.SendJsonAsync(HttpMethod.Post, Runs, ask);
        Assert.Equal(id, (await again.JsonAsync(HttpStatusCode.Accepted)).GetProperty("runId").GetGuid());
    }

    [Theory]
    [InlineData("""{"reading":"tea-leaves","inputs":{}}""", HttpStatusCode.NotFound, "unknown-reading")]
    [InlineData("""{}""", HttpStatusCode.BadRequest, "reading-missing")]
    [InlineData("""{"reading":"photograph-quality","parameters":{"warn-nois":2},"inputs":{"photograph":["DEEP"]}}""", HttpStatusCode.BadRequest, "unknown-parameter")]
    [InlineData("""{"reading":"photograph-quality","parameters":{"warn-noise":-1},"inputs":{"photograph":["DEEP"]}}""", HttpStatusCode.BadRequest, "parameter-value")]
    [InlineData("""{"reading":"photograph-quality","parameters":{"warn-noise":"NaN"},"inputs":{"photograph":["DEEP"]}}""", HttpStatusCode.BadRequest, "parameter-value")]
    [InlineData("""{"reading":"photograph-quality","parameters":{"warn-noise":[1]},"inputs":{"photograph":["DEEP"]}}""", HttpStatusCode.BadRequest, "parameter-value")]
    [InlineData("""{"reading":"photograph-quality","inputs":{}}""", HttpStatusCode.BadRequest, "input-count")]
    [InlineData("""{"reading":"photograph-quality","inputs":{"photo":["DEEP"]}}""", HttpStatusCode.BadRequest, "unknown-input")]
    [InlineData("""{"reading":"photograph-quality","inputs":{"photograph":["00000000-0000-0000-0000-000000000000"]}}""", HttpStatusCode.NotFound, "unknown-photograph")]
    [InlineData("""{"reading":"photograph-quality","inputs":{"photograph":["not an id"]}}""", HttpStatusCode.BadRequest, "request-malformed")]
    public async Task What_cannot_be_run_is_refused_before_anything_is_queued(string body, HttpStatusCode status, string code)
    {
        var before = (await server.Client.GetJsonAsync(Runs)).GetArrayLength();
        using var answer = await server.Client.SendJsonAsync(HttpMethod.Post, Runs, body.Replace("DEEP", server.Seed.Deep.Id.ToString(), StringComparison.Ordinal));
        await answer.ProblemAsync(status, code);
        Assert.Equal(before, (await server.Client.GetJsonAsync(Runs)).GetArrayLength());
    }

    [Fact]
    public async Task A_run_that_waits_is_cancelled_at_once()
    {
        var id = AddRun(RunState.Queued);
        using var answer = await server.Client.SendJsonAsync(HttpMethod.Post, $"/api/runs/{id}/cancel", null);
        Assert.Equal("cancelled", (await answer.JsonAsync(HttpStatusCode.Accepted)).GetProperty("state").GetString());
    }

    [Fact]
    public async Task A_run_under_way_is_asked_to_stop()
    {
        var id = AddRun(RunState.Running);
        using var answer = await server.Client.SendJsonAsync(HttpMethod.Post, $"/api/runs/{id}/cancel", null);
        await answer.JsonAsync(HttpStatusCode.Accepted);
        using var db = server.Studio.CreateDb();
        Assert.True(db.Runs.Single(r => r.Id == id).CancelRequested);
    }

    [Fact]
    public async Task A_run_that_is_not_there_cannot_be_cancelled()
    {
        using var answer = await server.Client.SendJsonAsync(HttpMethod.Post, $"/api/runs/{Guid.NewGuid()}/cancel", null);
        await answer.ProblemAsync(HttpStatusCode.NotFound, "unknown-run");
    }

    /// <summary>A row that no queue knows of, so that its state is what the test says.</summary>
    private Guid AddRun(RunState state)
    {
        var run = new Run
        {
            PaintingId = server.Seed.Painting.Id, Kind = RunKind.Reading, ReadingId = "false-colour", ReadingVersion = 1, Parameters = new Dictionary<string, string>(), Inputs = [],
            Key = Guid.NewGuid().ToString("N"), SoftwareVersion = "0.1.0", UserName = "marta", State = state, QueuedAt = DateTime.UtcNow,
        };
        using var db = server.Studio.CreateDb();
        db.Add(run);
        db.SaveChanges();
        return run.Id;
    }

    private async Task<JsonElement> EndAsync(Guid id)
    {
        for (var i = 0; ; i++)
        {
            var run = await server.Client.GetJsonAsync($"/api/runs/{id}");
            if (run.GetProperty("state").GetString() is not ("queued" or "running")) return run;
            Assert.True(i < 300, "The run does not end.");
            await Task.Delay(100, TestContext.Current.CancellationToken);
        }
    }
}
