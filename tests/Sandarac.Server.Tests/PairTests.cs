using System.Net;
using System.Text.Json;

namespace Sandarac.Server.Tests;

/// <summary>Pairs between the seed's 16-bit photograph, which lies on the plane at 0.1 mm a pixel, and its 8-bit one, which does not.</summary>
public sealed class PairTests(RunningServer server)
{
    private string Pairs => $"/api/photographs/{server.Seed.Shallow.Id}/pairs";

    /// <summary>Pairs by a map of 0.1 mm a pixel.</summary>
    private static object[] Exact(params (double X, double Y)[] pixels) => [.. pixels.Select(p => new { place = new[] { p.X / 10, p.Y / 10 }, pixel = new[] { p.X, p.Y } })];

    [Fact]
    public async Task A_fit_says_what_it_leaves_of_each_pair()
    {
        object[] pairs = [.. Exact((100, 100), (1100, 120), (1080, 800), (90, 780)), new { place = new[] { 60.5, 45 }, pixel = new[] { 600.0, 450 }, used = false }];
        var fit = await AskAsync("/fit", new { pairs, model = "auto" });
        Assert.Equal("affine", fit.GetProperty("model").GetString());
        Assert.Equal(0.1, fit.GetProperty("mmPerPixel").GetDouble(), 9);
        Assert.Equal(0, fit.GetProperty("residual").GetProperty("max").GetDouble(), 9);
        Assert.Equal(0, fit.GetProperty("leftOut").GetProperty("p95").GetDouble(), 9);
        var off = fit.GetProperty("pairs")[4];
        Assert.Equal(-0.5, off.GetProperty("residual")[0].GetDouble(), 9);
        Assert.Equal((0.5, 5.0, 0.5), (Math.Round(off.GetProperty("mm").GetDouble(), 9), Math.Round(off.GetProperty("px").GetDouble(), 6), Math.Round(off.GetProperty("leftOutMm").GetDouble(), 9)));
    }

    [Fact]
    public async Task Pairs_that_just_fix_a_model_are_not_checked_by_leaving_one_out()
    {
        var fit = await AskAsync("/fit", new { pairs = Exact((100, 100), (1100, 800)), model = "similarity" });
        Assert.Equal(JsonValueKind.Null, fit.GetProperty("leftOut").ValueKind);
        Assert.All(fit.GetProperty("pairs").EnumerateArray(), p => Assert.Equal(JsonValueKind.Null, p.GetProperty("leftOutMm").ValueKind));
    }

    [Theory]
    [InlineData(0, 0.1)]
    [InlineData(2, 0.1)]
    [InlineData(5, 0.1)]
    public async Task The_other_side_is_predicted_by_pairs_or_as_if_the_face_filled_the_frame(int count, double mmPerPixel)
    {
        var pairs = Exact((100, 100), (1100, 120), (1080, 800), (90, 780), (600, 450))[..count];
        var found = await AskAsync("/predict", new { pairs, place = new[] { 30.0, 20 } });
        Assert.Equal(300, found.GetProperty("pixel")[0].GetDouble(), 6);
        Assert.Equal(200, found.GetProperty("pixel")[1].GetDouble(), 6);
        Assert.Equal(mmPerPixel, found.GetProperty("mmPerPixel").GetDouble(), 6);
        Assert.Equal(20, (await AskAsync("/predict", new { pairs, pixel = new[] { 300.0, 200 } })).GetProperty("place")[1].GetDouble(), 6);
    }

    [Fact]
    public async Task Pairs_on_one_line_still_predict()
    {
        var found = await AskAsync("/predict", new { pairs = Exact((100, 100), (200, 200), (300, 300), (400, 400), (500, 500)), place = new[] { 30.0, 20 } });
        Assert.Equal(300, found.GetProperty("pixel")[0].GetDouble(), 6);
    }

    [Fact]
    public async Task Stripes_do_not_say_where_along_them_a_place_lies()
    {
        var answer = await AskAsync("/snap", new { reference = server.Seed.Deep.Id, pairs = Array.Empty<object>(), pair = Exact((600, 450))[0] });
        Assert.Equal(JsonValueKind.Null, answer.GetProperty("pixel").ValueKind);
        Assert.Contains("stands out", answer.GetProperty("reason").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Nothing_was_measured_of_an_alignment_without_patches()
    {
        foreach (var photograph in new[] { server.Seed.Deep, server.Seed.Shallow })
        {
            Assert.Equal(0, (await server.Client.GetJsonAsync($"/api/photographs/{photograph.Id}/residual")).GetArrayLength());
            Assert.Equal(0, (await server.Client.GetJsonAsync($"/api/photographs/{photograph.Id}/pairs")).GetArrayLength());
        }
    }

    [Theory]
    [InlineData("""{"pairs":[]}""", "too-few-pairs")]
    [InlineData("""{}""", "too-few-pairs")]
    [InlineData("""{"pairs":[null,null]}""", "point")]
    [InlineData("""{"pairs":[{"place":[1],"pixel":[1,2]}]}""", "point")]
    [InlineData("""{"pairs":[{"place":[1,2]}]}""", "point")]
    [InlineData("""{"pairs":[{"place":[1,2],"pixel":[1e300,2]}]}""", "pair-pixel")]
    [InlineData("""{"pairs":[{"place":[-1e5,2],"pixel":[1,2]}]}""", "pair-place")]
    [InlineData("""{"pairs":[{"place":["NaN",2],"pixel":[1,2]}]}""", "request-malformed")]
    [InlineData("""{"pairs":[],"model":"rubber"}""", "model")]
    [InlineData("""{"pairs":[{"place":[1,2],"pixel":[1,2]},{"place":[1,2],"pixel":[1,2]}]}""", "pairs-degenerate")]
    [InlineData("""{"pairs":[{"place":[1,1],"pixel":[1,2]},{"place":[1,1],"pixel":[9,2]}]}""", "pairs-degenerate")]
    [InlineData("""{"pairs":[{"place":[1,1],"pixel":[10,10]},{"place":[2,2],"pixel":[20,20]},{"place":[3,3],"pixel":[30,30]},{"place":[4,4],"pixel":[40,40]}],"model":"homography"}""", "pairs-degenerate")]
    public async Task What_are_not_pairs_is_refused(string body, string code)
    {
        using var answer = await server.Client.SendJsonAsync(HttpMethod.Post, Pairs + "/fit", body);
        await answer.ProblemAsync(HttpStatusCode.BadRequest, code);
    }

    [Fact]
    public async Task More_pairs_than_a_person_sets_are_refused()
    {
        using var answer = await server.Client.SendJsonAsync(HttpMethod.Post, Pairs + "/fit", new { pairs = Exact([.. Enumerable.Range(0, 201).Select(i => ((double)i, (double)(i * i % 900)))]) });
        await answer.ProblemAsync(HttpStatusCode.BadRequest, "too-many-pairs");
    }

    [Theory]
    [InlineData("/pairs/snap")]
    [InlineData("/pairs")]
    [InlineData("/match")]
    public async Task A_reference_is_another_photograph_of_the_painting_on_the_plane(string path)
    {
        var (shallow, deep) = (server.Seed.Shallow.Id, server.Seed.Deep.Id);
        var pairs = Exact((100, 100), (1100, 120), (1080, 800));
        async Task RefusedAsync(Guid photograph, Guid reference, HttpStatusCode status, string code)
        {
            using var answer = await server.Client.SendJsonAsync(HttpMethod.Post, $"/api/photographs/{photograph}{path}", new { reference, pairs, pair = pairs[0] });
            await answer.ProblemAsync(status, code);
        }
        await RefusedAsync(shallow, shallow, HttpStatusCode.BadRequest, "reference");
        await RefusedAsync(deep, shallow, HttpStatusCode.BadRequest, "reference-not-aligned");
        await RefusedAsync(shallow, Guid.NewGuid(), HttpStatusCode.NotFound, "unknown-photograph");
        await RefusedAsync(Guid.NewGuid(), deep, HttpStatusCode.NotFound, "unknown-photograph");
    }

    private async Task<JsonElement> AskAsync(string path, object body)
    {
        using var answer = await server.Client.SendJsonAsync(HttpMethod.Post, Pairs + path, body);
        return await answer.JsonAsync();
    }
}
