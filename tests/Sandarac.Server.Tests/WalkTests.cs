using System.IO.Compression;
using System.Net;
using System.Text.Json;

namespace Sandarac.Server.Tests;

public sealed class WalkTests(RunningServer server)
{
    private readonly CancellationToken _stop = TestContext.Current.CancellationToken;

    private string Api => $"/api/paintings/{server.Seed.Painting.Id}/walks";

    private async Task<JsonElement> CreateAsync(string title, params object[] steps)
    {
        using var answer = await server.Client.SendJsonAsync(HttpMethod.Post, Api, new { title, language = "es", steps });
        return await answer.JsonAsync(HttpStatusCode.Created);
    }

    private object Step(string? layer = null) => new
    {
        id = Guid.NewGuid(), title = "Una vista", caption = "Aquí.", x = 60, y = 45, widthMm = 40, layerA = layer ?? $"p-{server.Seed.Deep.Id}", layerB = (string?)null, compare = "alone", amount = 0.5, lampAzimuth = (double?)null, lampElevation = (double?)null, zones = Array.Empty<Guid>(),
    };

    private static string Id(JsonElement walk) => walk.GetProperty("id").GetString()!;

    [Fact]
    public async Task A_walk_is_shown_with_all_that_it_names_found()
    {
        var walk = await CreateAsync("Bajo el barniz", Step(), Step($"r-{server.Seed.Numbers.Id}-map"), Step($"p-{Guid.NewGuid()}"));
        var shown = await server.Client.GetJsonAsync($"/api/walks/{Id(walk)}/shown");
        Assert.Equal("es", shown.GetProperty("language").GetString());
        var pictures = shown.GetProperty("pictures").EnumerateArray().ToDictionary(p => p.GetProperty("key").GetString()!, p => p.GetProperty("layer").GetString());
        var steps = shown.GetProperty("steps").EnumerateArray().ToList();
        Assert.Equal([$"p-{server.Seed.Deep.Id}", $"r-{server.Seed.Numbers.Id}-map", $"p-{server.Seed.Deep.Id}"], steps.Select(s => pictures[s.GetProperty("a").GetString()!]));
        Assert.Equal([0, 0, 1], steps.Select(s => s.GetProperty("notes").GetArrayLength()));
        using var page = await server.Client.GetAsync($"/paintings/{server.Seed.Painting.Id}/walks/{Id(walk)}/present", _stop);
        Assert.Contains("<title>Bajo el barniz - Sandarac</title>", await page.Content.ReadAsStringAsync(_stop), StringComparison.Ordinal);
        using var elsewhere = await server.Client.GetAsync($"/paintings/{Guid.NewGuid()}/walks/{Id(walk)}/present", _stop);
        Assert.Equal(HttpStatusCode.NotFound, elsewhere.StatusCode);
        using var removed = await server.Client.SendJsonAsync(HttpMethod.Delete, $"/api/walks/{Id(walk)}", null, 1);
        using var gone = await server.Client.GetAsync($"/api/walks/{Id(walk)}/shown", _stop);
        await gone.ProblemAsync(HttpStatusCode.BadRequest, "walk-deleted");
    }

    [Fact]
    public async Task A_walk_is_exported_as_a_zip_and_what_cannot_be_is_said()
    {
        var walk = await CreateAsync("Under the varnish!", Step());
        var done = await EndAsync(await StartAsync(walk, new { @base = "https://museum.example/walk" }));
        Assert.Equal(("done", 1.0), (done.GetProperty("state").GetString(), done.GetProperty("done").GetDouble()));
        using var zip = await server.Client.GetAsync($"/api/exports/{Id(done)}/zip", _stop);
        Assert.Equal("under-the-varnish.zip", zip.Content.Headers.ContentDisposition!.FileName);
        using var archive = new ZipArchive(await zip.Content.ReadAsStreamAsync(_stop));
        Assert.Contains(archive.Entries, e => e.FullName == "under-the-varnish/index.html");
        Assert.Contains(archive.Entries, e => e.FullName == "under-the-varnish/pictures/vis/info.json");
        using var manifest = JsonDocument.Parse(archive.GetEntry("under-the-varnish/manifest.json")!.Open());
        Assert.Equal("https://museum.example/walk/manifest.json", manifest.RootElement.GetProperty("id").GetString());
        var wrong = await EndAsync(await StartAsync(walk, new { @base = "nowhere" }));
        Assert.Equal("failed", wrong.GetProperty("state").GetString());
        Assert.Contains("is not the address of a folder on the web", wrong.GetProperty("problem").GetString(), StringComparison.Ordinal);
        var empty = await EndAsync(await StartAsync(await CreateAsync("Empty"), new { }));
        Assert.Contains("add it to the walk", empty.GetProperty("remedy").GetString(), StringComparison.Ordinal);
        using var early = await server.Client.GetAsync($"/api/exports/{Id(empty)}/zip", _stop);
        await early.ProblemAsync(HttpStatusCode.BadRequest, "export-unfinished");
        using var unknown = await server.Client.GetAsync($"/api/exports/{Guid.NewGuid()}", _stop);
        await unknown.ProblemAsync(HttpStatusCode.NotFound, "unknown-export");
        using var cancelled = await server.Client.DeleteAsync($"/api/exports/{Id(empty)}", _stop);
        Assert.Equal(HttpStatusCode.NoContent, cancelled.StatusCode);
    }

    private async Task<JsonElement> StartAsync(JsonElement walk, object ask)
    {
        using var answer = await server.Client.SendJsonAsync(HttpMethod.Post, $"/api/walks/{Id(walk)}/exports", ask);
        return await answer.JsonAsync(HttpStatusCode.Accepted);
    }

    private async Task<JsonElement> EndAsync(JsonElement export)
    {
        while (export.GetProperty("state").GetString() == "running")
        {
            await Task.Delay(50, _stop);
            export = await server.Client.GetJsonAsync($"/api/exports/{Id(export)}");
        }
        return export;
    }
}
