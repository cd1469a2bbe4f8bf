using System.Net;
using System.Text.Json;

namespace Sandarac.Server.Tests;

public sealed class TeachingTests(RunningServer server)
{
    private string Teach => $"/api/paintings/{server.Seed.Painting.Id}/teach";

    private string Runs => $"/api/paintings/{server.Seed.Painting.Id}/runs";

    [Fact]
    public async Task Marks_are_learnt_from_in_the_view_and_nothing_is_stored()
    {
        var before = (await server.Client.GetJsonAsync(Runs)).GetArrayLength();
        using var answer = await server.Client.SendJsonAsync(HttpMethod.Post, Teach, Ask(Marks(6)));
        var taught = await answer.JsonAsync(HttpStatusCode.OK);
        // The layers have 0.1 mm a pixel: the copy nearest to 0.5 mm has 0.4.
        Assert.Equal(0.4, taught.GetProperty("mmPerPixel").GetDouble(), 1e-9);
        Assert.Equal(["left", "right"], taught.GetProperty("classes").EnumerateArray().Select(c => c.GetProperty("name").GetString()));
        foreach (var c in taught.GetProperty("classes").EnumerateArray())
        {
            Assert.Equal(6, c.GetProperty("examples").GetInt32());
            Assert.Equal([0x89, (byte)'P', (byte)'N', (byte)'G'], c.GetProperty("probability").GetBytesFromBase64()[..4]);
            Assert.Contains("separable", c.GetProperty("verdict").GetString(), StringComparison.Ordinal);
            Assert.Equal(!c.GetProperty("verdict").GetString()!.Contains("not separable", StringComparison.Ordinal), c.GetProperty("isSeparable").GetBoolean());
        }
        var quality = taught.GetProperty("quality");
        Assert.InRange(quality.GetProperty("balanced").GetDouble(), quality.GetProperty("lower").GetDouble(), quality.GetProperty("upper").GetDouble());
        Assert.Equal(1, quality.GetProperty("reliability").EnumerateArray().Sum(b => b.GetProperty("weight").GetDouble()), 9);
        AssertSumToOne([.. taught.GetProperty("classes").EnumerateArray().Select(c => c.GetProperty("probability").GetBytesFromBase64())]);
        Assert.Equal(before, (await server.Client.GetJsonAsync(Runs)).GetArrayLength());
    }

    [Fact]
    public async Task A_single_stroke_a_class_shows_something_and_says_that_it_is_not_enough()
    {
        using var answer = await server.Client.SendJsonAsync(HttpMethod.Post, Teach, Ask(Marks(1)));
        var taught = await answer.JsonAsync(HttpStatusCode.OK);
        Assert.All(taught.GetProperty("classes").EnumerateArray(), c => Assert.StartsWith("Not enough examples", c.GetProperty("verdict").GetString(), StringComparison.Ordinal));
        Assert.All(taught.GetProperty("classes").EnumerateArray(), c => Assert.Equal(JsonValueKind.Null, c.GetProperty("isSeparable").ValueKind));
        Assert.Equal(JsonValueKind.Null, taught.GetProperty("quality").ValueKind);
        Assert.Empty(taught.GetProperty("importance").EnumerateArray());
    }

    [Fact]
    public async Task A_run_keeps_the_marks_it_was_taught_with()
    {
        var ask = new { reading = "taught-zones", parameters = new { marks = Marks(6), trees = 10 }, inputs = new { layers = new[] { server.Seed.Deep.Id } } };
        using var asked = await server.Client.SendJsonAsync(HttpMethod.Post, Runs, ask);
        var id = (await asked.JsonAsync(HttpStatusCode.Accepted)).GetProperty("runId").GetGuid();
        var stored = (await server.Client.GetJsonAsync($"/api/runs/{id}")).GetProperty("parameters").GetProperty("marks").GetString();
        Assert.Equal(12, JsonDocument.Parse(stored!).RootElement.GetProperty("features").GetArrayLength());
        using var cancelled = await server.Client.SendJsonAsync(HttpMethod.Post, $"/api/runs/{id}/cancel", null);
        await cancelled.JsonAsync(HttpStatusCode.Accepted);
    }

    [Theory]
    [InlineData("""{"marks":{"type":"FeatureCollection","features":[]},"layers":["DEEP"],"mmPerPixel":0.5}""", "view")]
    [InlineData("""{"marks":{"type":"FeatureCollection","features":[]},"layers":["DEEP"],"mmPerPixel":0,"view":[0,0,9,9]}""", "view")]
    [InlineData("""{"marks":{"type":"FeatureCollection","features":[]},"layers":["DEEP"],"mmPerPixel":0.5,"view":[500,500,600,600]}""", "view")]
    [InlineData("""{"marks":{"type":"Feature"},"layers":["DEEP"],"mmPerPixel":0.5,"view":[0,0,9,9]}""", "marks")]
    [InlineData("""{"marks":{"type":"FeatureCollection","features":[]},"layers":["DEEP"],"mmPerPixel":0.5,"view":[0,0,9,9],"strokeWidth":0.01}""", "parameter-value")]
    [InlineData("""{"marks":{"type":"FeatureCollection","features":[]},"layers":["DEEP"],"mmPerPixel":0.5,"view":[0,0,9,9],"strokeWidth":51}""", "parameter-value")]
    [InlineData("""{"layers":[],"mmPerPixel":0.5,"view":[0,0,9,9]}""", "input-count")]
    [InlineData("""{"layers":["SHALLOW"],"mmPerPixel":0.5,"view":[0,0,9,9]}""", "not-aligned")]
    public async Task Invalid_questions_are_refused(string body, string code)
    {
        using var answer = await server.Client.SendJsonAsync(HttpMethod.Post, Teach, body.Replace("DEEP", server.Seed.Deep.Id.ToString(), StringComparison.Ordinal).Replace("SHALLOW", server.Seed.Shallow.Id.ToString(), StringComparison.Ordinal));
        await answer.ProblemAsync(HttpStatusCode.BadRequest, code);
    }

    [Fact]
    public async Task Marks_of_one_class_teach_nothing()
    {
        var one = JsonSerializer.SerializeToElement(new { type = "FeatureCollection", features = Marks(2).GetProperty("features").EnumerateArray().Where((_, i) => i % 2 == 0) });
        using var answer = await server.Client.SendJsonAsync(HttpMethod.Post, Teach, Ask(one));
        var taught = await answer.JsonAsync(HttpStatusCode.OK);
        Assert.StartsWith("Not enough examples", taught.GetProperty("noAnswer").GetString(), StringComparison.Ordinal);
        Assert.Empty(taught.GetProperty("classes").EnumerateArray());
    }

    /// <summary>The pictures of two classes' probabilities, each rounded to a 255th; opaque everywhere, for the layer has data everywhere.</summary>
    private static void AssertSumToOne(byte[][] pictures)
    {
        using var one = NetVips.Image.NewFromBuffer(pictures[0]);
        using var other = NetVips.Image.NewFromBuffer(pictures[1]);
        var (a, b) = (one.WriteToMemory<byte>(), other.WriteToMemory<byte>());
        Assert.Equal((2, 2), (one.Bands, other.Bands));
        for (var i = 0; i < a.Length; i += 2)
        {
            Assert.InRange(a[i] + b[i], 254, 256);
            Assert.Equal((255, 255), (a[i + 1], b[i + 1]));
        }
    }

    private object Ask(JsonElement marks) => new { marks, layers = new[] { server.Seed.Deep.Id }, view = new[] { 0, 0, 120, 90 }, mmPerPixel = 0.5 };

    /// <summary>Strokes in the left and in the right of the painting.</summary>
    private static JsonElement Marks(int ofClass) => JsonSerializer.SerializeToElement(new
    {
        type = "FeatureCollection",
        features = Enumerable.Range(0, 2 * ofClass).Select(i => new
        {
            type = "Feature",
            properties = new Dictionary<string, string> { ["class"] = i % 2 == 0 ? "left" : "right" },
            geometry = new { type = "LineString", coordinates = new[] { new[] { (i % 2 == 0 ? 10.0 : 100), 5 + 13 * (i / 2) }, [(i % 2 == 0 ? 16.0 : 106), 6 + 13 * (i / 2)] } },
        }),
    });
}
