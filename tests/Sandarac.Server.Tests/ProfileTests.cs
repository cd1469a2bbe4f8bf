using System.Net;
using System.Text.Json;

namespace Sandarac.Server.Tests;

public sealed class ProfileTests(RunningServer server)
{
    private string Profile => $"/api/layers/r-{server.Seed.Numbers.Id}-map/profile";

    [Fact]
    public async Task A_map_is_read_along_a_line_between_its_pixels()
    {
        var profile = await server.Client.GetJsonAsync($"{Profile}?line=10,20,40,60&breadth=1.5");
        Assert.Equal(50, profile.GetProperty("lengthMm").GetDouble(), 1e-12);
        Assert.Equal(0.1, profile.GetProperty("stepMm").GetDouble(), 1e-12);
        Assert.Equal(1.5, profile.GetProperty("breadthMm").GetDouble());
        Assert.Equal("um", profile.GetProperty("unit").GetString());
        var values = profile.GetProperty("values").EnumerateArray().Select(v => v.GetDouble()).ToArray();
        Assert.Equal(501, values.Length);
        // The map is a plane, so that means and values between pixels are exact: x / 4 - y in pixels, whose middles have half numbers.
        for (var k = 0; k < values.Length; k++) Assert.Equal(0.25 * (100 + 0.6 * k - 0.5) - (200 + 0.8 * k - 0.5), values[k], 1e-3);
        Assert.Equal(values.Max() - values.Min(), profile.GetProperty("peakToValley").GetDouble(), 1e-9);
    }

    [Fact]
    public async Task Beside_the_map_there_are_no_values()
    {
        var profile = await server.Client.GetJsonAsync($"{Profile}?line=200,20,240,20");
        Assert.All(profile.GetProperty("values").EnumerateArray(), v => Assert.Equal(JsonValueKind.Null, v.ValueKind));
        Assert.Equal(JsonValueKind.Null, profile.GetProperty("peakToValley").ValueKind);
    }

    [Theory]
    [InlineData("line=10,20", "profile-line")]
    [InlineData("line=10,20,30", "profile-line")]
    [InlineData("line=10,20,10,20", "profile-line")]
    [InlineData("line=10,20,NaN,20", "profile-line")]
    [InlineData("line=10,20,a,20", "profile-line")]
    [InlineData("line=0,0,1e300,0", "profile-line")]
    [InlineData("line=0,0,99999,0&breadth=50", "profile-line")]
    [InlineData("line=10,20,40,60&breadth=-1", "profile-breadth")]
    [InlineData("line=10,20,40,60&breadth=51", "profile-breadth")]
    [InlineData("", "request-malformed")]
    public async Task Lines_that_are_none_are_refused(string query, string code)
    {
        using var answer = await server.Client.GetAsync($"{Profile}?{query}", TestContext.Current.CancellationToken);
        await answer.ProblemAsync(HttpStatusCode.BadRequest, code);
    }

    [Fact]
    public async Task A_photograph_has_no_profile()
    {
        using var answer = await server.Client.GetAsync($"/api/layers/p-{server.Seed.Deep.Id}/profile?line=10,20,40,60", TestContext.Current.CancellationToken);
        await answer.ProblemAsync(HttpStatusCode.BadRequest, "profile-layer");
    }

    [Fact]
    public async Task Photographs_for_a_reading_are_suggested()
    {
        var painting = $"/api/paintings/{server.Seed.Painting.Id}";
        var inputs = await server.Client.GetJsonAsync($"{painting}/inputs?reading=taught-zones");
        Assert.Contains(server.Seed.Deep.Id, inputs.GetProperty("layers").EnumerateArray().Select(v => v.GetGuid()));
        Assert.False((await server.Client.GetJsonAsync($"{painting}/inputs?reading=relief")).TryGetProperty("raking", out _));
        using var unknown = await server.Client.GetAsync($"{painting}/inputs?reading=tea-leaves", TestContext.Current.CancellationToken);
        await unknown.ProblemAsync(HttpStatusCode.NotFound, "unknown-reading");
    }
}
