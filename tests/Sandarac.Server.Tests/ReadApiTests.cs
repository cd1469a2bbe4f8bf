using System.Net;
using System.Text.Json;
using Sandarac.Analysis.Declaring;

namespace Sandarac.Server.Tests;

public sealed class ReadApiTests(RunningServer server)
{
    private readonly CancellationToken _stop = TestContext.Current.CancellationToken;

    [Fact]
    public async Task Paintings_are_listed()
    {
        var painting = Assert.Single((await server.Client.GetJsonAsync("/api/paintings")).EnumerateArray());
        Assert.Equal(server.Seed.Painting.Id, painting.GetProperty("id").GetGuid());
        Assert.Equal(("Weir in flood", 2), (painting.GetProperty("title").GetString(), painting.GetProperty("photographs").GetInt32()));
    }

    [Fact]
    public async Task A_painting_lists_its_layers_with_all_that_the_viewer_needs()
    {
        var painting = await server.Client.GetJsonAsync($"/api/paintings/{server.Seed.Painting.Id}");
        Assert.Equal((120.1, 90.1, "measured"), (painting.GetProperty("widthMm").GetDouble(), painting.GetProperty("heightMm").GetDouble(), painting.GetProperty("sizeOrigin").GetString()));
        var layers = painting.GetProperty("layers").EnumerateArray().ToDictionary(l => l.GetProperty("id").GetString()!);
        Assert.Equal(new[] { $"p-{server.Seed.Deep.Id}", $"o-{server.Seed.Shallow.Id}", $"r-{server.Seed.Numbers.Id}-map" }.Order(), layers.Keys.Order());

        var deep = layers[$"p-{server.Seed.Deep.Id}"];
        Assert.Equal("[0,0,120.1,90.1]", deep.GetProperty("extentMm").GetRawText());
        Assert.Equal(("photograph", "u16", "aligned", true), (deep.GetProperty("kind").GetString(), deep.GetProperty("format").GetString(), deep.GetProperty("verdict").GetString(), deep.GetProperty("onPlane").GetBoolean()));
        Assert.Equal((1201, 901, 512, 3), (deep.GetProperty("width").GetInt32(), deep.GetProperty("height").GetInt32(), deep.GetProperty("tileSize").GetInt32(), deep.GetProperty("levels").GetInt32()));
        Assert.Equal(0.1, deep.GetProperty("mmPerPixel").GetDouble(), 9);
        Assert.Equal(server.Seed.Deep.Pyramid!.Sha256[..16], deep.GetProperty("version").GetString());

        var shallow = layers[$"o-{server.Seed.Shallow.Id}"];
        Assert.Equal(("u8", false, "[0,0,1201,901]"), (shallow.GetProperty("format").GetString(), shallow.GetProperty("onPlane").GetBoolean(), shallow.GetProperty("extentMm").GetRawText()));
        Assert.Equal(("f32", "reading"), (layers[$"r-{server.Seed.Numbers.Id}-map"].GetProperty("format").GetString(), layers[$"r-{server.Seed.Numbers.Id}-map"].GetProperty("kind").GetString()));
    }

    [Fact]
    public async Task A_photograph_tells_its_facts_and_how_it_was_aligned()
    {
        var photograph = await server.Client.GetJsonAsync($"/api/photographs/{server.Seed.Deep.Id}");
        Assert.Equal(("VIS_01.tif", "VIS", 1201), (photograph.GetProperty("fileName").GetString(), photograph.GetProperty("light").GetString(), photograph.GetProperty("facts").GetProperty("width").GetInt32()));
        var alignment = Assert.Single(photograph.GetProperty("alignments").EnumerateArray());
        Assert.Equal(("corners-found", "aligned", true), (alignment.GetProperty("method").GetString(), alignment.GetProperty("verdict").GetString(), alignment.GetProperty("inForce").GetBoolean()));
        Assert.Equal(0.11, alignment.GetProperty("residuals").GetProperty("p95Mm").GetDouble());

        Assert.Equal("[[0,0],[1201,0],[1201,901],[0,901]]", (await server.Client.GetJsonAsync($"/api/photographs/{server.Seed.Deep.Id}/corners")).GetProperty("corners").GetRawText());
        Assert.Equal(JsonValueKind.Null, (await server.Client.GetJsonAsync($"/api/photographs/{server.Seed.Shallow.Id}/corners")).GetProperty("corners").ValueKind);
    }

    [Fact]
    public async Task A_run_tells_its_figures_and_never_a_number_that_is_none()
    {
        var run = await server.Client.GetJsonAsync($"/api/runs/{server.Seed.Numbers.Id}");
        Assert.Equal(("done", "reading"), (run.GetProperty("state").GetString(), run.GetProperty("kind").GetString()));
        var figures = run.GetProperty("figures");
        Assert.Equal((12.5, 0.7), (figures[0].GetProperty("value").GetDouble(), figures[0].GetProperty("uncertainty").GetDouble()));
        Assert.Equal((JsonValueKind.Null, "no edge was found"), (figures[1].GetProperty("value").ValueKind, figures[1].GetProperty("note").GetString()));
        Assert.Equal($"r-{server.Seed.Numbers.Id}-map", run.GetProperty("rasters")[0].GetProperty("layerId").GetString());
        var runs = await server.Client.GetJsonAsync($"/api/paintings/{server.Seed.Painting.Id}/runs");
        Assert.Contains(run.GetProperty("id").GetString(), runs.EnumerateArray().Select(r => r.GetProperty("id").GetString()));
    }

    [Fact]
    public async Task Readings_are_described_as_they_declare_themselves()
    {
        var list = (await server.Client.GetJsonAsync("/api/readings")).EnumerateArray().Select(r => r.GetProperty("id").GetString()).ToList();
        Assert.Equal(ReadingCatalogue.All.Select(r => r.Declaration.Id), list);
        foreach (var declaration in ReadingCatalogue.All.Select(r => r.Declaration))
        {
            var reading = await server.Client.GetJsonAsync($"/api/readings/{declaration.Id}");
            Assert.Equal(declaration.Parameters.Select(p => (p.Name, p.DefaultText)),
                reading.GetProperty("parameters").EnumerateArray().Select(p => (p.GetProperty("name").GetString()!, p.GetProperty("default").GetString()!)));
        }
    }

    [Fact]
    public async Task The_APIs_description_lists_every_readings_parameters_with_their_bounds()
    {
        var document = await server.Client.GetJsonAsync("/openapi/v1.json");
        var schemas = document.GetProperty("components").GetProperty("schemas");
        // A reading without parameters has an object without properties.
        foreach (var declaration in ReadingCatalogue.All.Select(r => DeclarationView.Of(r.Declaration)).Where(d => d.Parameters.Count > 0))
        {
            var parameters = schemas.GetProperty($"run-{declaration.Id}").GetProperty("properties").GetProperty("parameters").GetProperty("properties");
            foreach (var parameter in declaration.Parameters)
            {
                var described = parameters.GetProperty(parameter.Name);
                Assert.Contains(parameter.Help, described.GetProperty("description").GetString(), StringComparison.Ordinal);
                if (parameter.Minimum is { } minimum) Assert.Equal(minimum, described.GetProperty("minimum").GetDouble());
                if (parameter.Maximum is { } maximum) Assert.Equal(maximum, described.GetProperty("maximum").GetDouble());
            }
        }
        Assert.Contains("/api/layers/{layerId}/tiles/{level}/{col}/{row}", document.GetProperty("paths").EnumerateObject().Select(p => p.Name));
        Assert.Contains("/api/zones/{zoneId}", document.GetProperty("paths").EnumerateObject().Select(p => p.Name));
    }

    [Theory]
    [InlineData("/api/paintings/00000000-0000-0000-0000-000000000000", "unknown-painting")]
    [InlineData("/api/photographs/00000000-0000-0000-0000-000000000000", "unknown-photograph")]
    [InlineData("/api/photographs/00000000-0000-0000-0000-000000000000/corners", "unknown-photograph")]
    [InlineData("/api/runs/00000000-0000-0000-0000-000000000000", "unknown-run")]
    [InlineData("/api/paintings/00000000-0000-0000-0000-000000000000/runs", "unknown-painting")]
    [InlineData("/api/paintings/00000000-0000-0000-0000-000000000000/here?x=1&y=1", "unknown-painting")]
    [InlineData("/api/readings/tea-leaves", "unknown-reading")]
    [InlineData("/api/paintings/1", "unknown-address")]
    [InlineData("/api/paintings/..%2f..%2fetc", "unknown-address")]
    public async Task What_is_not_there_is_said(string path, string code)
    {
        using var answer = await server.Client.GetAsync(path, _stop);
        await answer.ProblemAsync(HttpStatusCode.NotFound, code);
    }

    [Theory]
    [InlineData("x=NaN&y=1")]
    [InlineData("x=1")]
    [InlineData("")]
    [InlineData("x=Infinity&y=0")]
    [InlineData("x=1e300&y=0")]
    public async Task A_place_that_is_none_is_refused(string query)
    {
        using var answer = await server.Client.GetAsync($"/api/paintings/{server.Seed.Painting.Id}/here?{query}", _stop);
        await answer.ProblemAsync(HttpStatusCode.BadRequest, "coordinate");
    }

    [Fact]
    public async Task A_word_for_a_number_is_refused()
    {
        using var answer = await server.Client.GetAsync($"/api/paintings/{server.Seed.Painting.Id}/here?x=left&y=1", _stop);
        await answer.ProblemAsync(HttpStatusCode.BadRequest, "request-malformed");
    }

    [Fact]
    public async Task A_method_that_an_address_does_not_take_is_said()
    {
        using var answer = await server.Client.SendJsonAsync(HttpMethod.Delete, "/api/paintings", null);
        await answer.ProblemAsync(HttpStatusCode.MethodNotAllowed, "method-not-allowed");
    }
}
