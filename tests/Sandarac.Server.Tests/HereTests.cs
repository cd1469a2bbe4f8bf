using System.Net;

namespace Sandarac.Server.Tests;

/// <summary>The seed's 16-bit photograph lies on the plane at 10 px/mm, upper left corner on upper left corner: the pixel under (x, y) mm is (10 x, 10 y).</summary>
public sealed class HereTests(RunningServer server)
{
    private string Here => $"/api/paintings/{server.Seed.Painting.Id}/here";

    [Theory]
    [InlineData(0.05, 0.05, 0, 0)]
    [InlineData(51.27, 33.31, 512, 333)]
    [InlineData(120.05, 90.05, 1200, 900)]
    public async Task The_values_are_the_files_own(double x, double y, int column, int row)
    {
        var here = await server.Client.GetJsonAsync(FormattableString.Invariant($"{Here}?x={x}&y={y}"));
        Assert.Equal(x, here.GetProperty("fromLeft").GetDouble(), 9);
        Assert.Equal(90.1 - y, here.GetProperty("fromBottom").GetDouble(), 9);
        var layers = here.GetProperty("layers").EnumerateArray().ToDictionary(l => l.GetProperty("layerId").GetString()!);
        var deep = layers[$"p-{server.Seed.Deep.Id}"];
        Assert.Equal($"[{column},{row}]", deep.GetProperty("pixel").GetRawText());
        Assert.Equal($"[{Seed.DeepValue(column, row, 0)},{Seed.DeepValue(column, row, 1)},{Seed.DeepValue(column, row, 2)}]", deep.GetProperty("values").GetRawText());
        Assert.Equal(Seed.Number(column, row), layers[$"r-{server.Seed.Numbers.Id}-map"].GetProperty("values")[0].GetDouble());
    }

    [Fact]
    public async Task Outside_every_frame_nothing_is_known()
    {
        var here = await server.Client.GetJsonAsync($"{Here}?x=-5&y=200");
        Assert.Empty(here.GetProperty("layers").EnumerateArray());
    }

    [Fact]
    public async Task Over_a_zone_it_gives_mean_spread_and_count()
    {
        // 4 x 2 mm at 10 px/mm: 40 x 20 pixels from (300, 100). Mean and spread by the formulas for a whole-numbered grid.
        var corners = new[] { new[] { 30.0, 10 }, [34, 10], [34, 12], [30, 12], [30, 10] };
        using var created = await server.Client.SendJsonAsync(HttpMethod.Post, $"/api/paintings/{server.Seed.Painting.Id}/zones",
            new { name = "patch", geometry = new { type = "Polygon", coordinates = new[] { corners } } });
        var id = (await created.JsonAsync(HttpStatusCode.Created)).GetProperty("id").GetString();
        var here = await server.Client.GetJsonAsync($"{Here}?zone={id}");
        var numbers = here.GetProperty("layers").EnumerateArray().Single(l => l.GetProperty("layerId").GetString() == $"r-{server.Seed.Numbers.Id}-map");
        Assert.Equal(800, numbers.GetProperty("n").GetInt64());
        Assert.Equal(0.25 * 319.5 - 109.5, numbers.GetProperty("mean")[0].GetDouble(), 6);
        var variance = (0.0625 * (40 * 40 - 1) + (20 * 20 - 1)) / 12;
        Assert.InRange(numbers.GetProperty("sd")[0].GetDouble(), Math.Sqrt(variance) * 0.999, Math.Sqrt(variance * 800 / 799) * 1.001);
    }

    [Fact]
    public async Task A_zone_of_another_painting_or_none_is_said()
    {
        using var answer = await server.Client.GetAsync($"{Here}?zone={Guid.NewGuid()}", TestContext.Current.CancellationToken);
        await answer.ProblemAsync(HttpStatusCode.NotFound, "unknown-zone");
    }
}
