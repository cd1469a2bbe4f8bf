using System.Net;
using System.Xml.Linq;

namespace Sandarac.Server.Tests;

public sealed class PlanTests(RunningServer server)
{
    private string Api => $"/api/paintings/{server.Seed.Painting.Id}";

    private async Task<string> WrittenAsync(string what, object body)
    {
        using var made = await server.Client.SendJsonAsync(HttpMethod.Post, $"{Api}/{what}", body);
        return (await made.JsonAsync(HttpStatusCode.Created)).GetProperty("id").GetString()!;
    }

    private Task<string> ZoneAsync(double size) => WrittenAsync("zones", new { name = "veil", geometry = new { type = "Polygon", coordinates = new[] { new[] { new[] { 10.0, 10 }, [10 + size, 10], [10 + size, 20], [10, 20], [10, 10] } } } });

    [Fact]
    public async Task A_state_is_drawn_measured_and_compared()
    {
        var zone = await ZoneAsync(20);
        var finding = await WrittenAsync("findings", new { observation = "a veil", author = "Marta Oud", term = "varnish/bloom", zones = new[] { zone } });
        object State(string name, params object[] entries) => new { name, occasion = "before-treatment", on = "2026-05-04", entries };
        var state = await WrittenAsync("condition-states", State("before treatment", new { findingId = finding, standing = "as-before", note = "" }));
        var sheet = XElement.Parse(await server.Client.GetStringAsync($"{Api}/plan.svg?state={state}&light=VIS", TestContext.Current.CancellationToken));
        Assert.Contains("1", (string)sheet.Attribute("viewBox")!, StringComparison.Ordinal);
        Assert.Contains(sheet.Descendants(), e => e.Name.LocalName == "image");
        Assert.Contains(sheet.Descendants(), e => e.Name.LocalName == "text" && e.Value.Contains("before treatment, 4 May 2026", StringComparison.Ordinal));
        var areas = await server.Client.GetJsonAsync($"{Api}/plan/areas?state={state}");
        var bloom = areas.GetProperty("terms").EnumerateArray().Single(t => t.GetProperty("key").GetString() == "varnish/bloom");
        Assert.Equal(200, bloom.GetProperty("extent").GetProperty("areaMm2").GetDouble(), 6);
        Assert.Equal(60 * Math.Sqrt(0.11 * 0.11 + 0.05 * 0.05), bloom.GetProperty("extent").GetProperty("areaUncertaintyMm2").GetDouble(), 6);
        Assert.Contains("\"bloom\",Bm,", await server.Client.GetStringAsync($"{Api}/plan/areas.csv?state={state}", TestContext.Current.CancellationToken), StringComparison.Ordinal);
        var empty = await WrittenAsync("condition-states", State("after treatment"));
        var gone = (await server.Client.GetJsonAsync($"{Api}/plan/difference?before={state}&after={empty}")).EnumerateArray().Single();
        Assert.Equal(("gone", -200), (gone.GetProperty("became").GetString(), Math.Round(gone.GetProperty("changeMm2").GetDouble(), 6)));
        using var stale = await server.Client.SendJsonAsync(HttpMethod.Put, $"/api/condition-states/{state}", State("before"), 9);
        await stale.ProblemAsync(HttpStatusCode.PreconditionFailed, "state-changed");
        var page = await server.Client.GetStringAsync($"/paintings/{server.Seed.Painting.Id}/plan?state={empty}&before={state}", TestContext.Current.CancellationToken);
        Assert.Contains("1 gone.", page, StringComparison.Ordinal);
        Assert.DoesNotContain("style=", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Appearances_come_with_their_hatches()
    {
        var all = (await server.Client.GetJsonAsync("/api/appearances")).EnumerateArray().ToList();
        var loss = all.Single(a => a.GetProperty("key").GetString() == "paint/loss");
        Assert.Equal(("loss", "condition", 45, 1), (loss.GetProperty("kind").GetString(), loss.GetProperty("category").GetString(), loss.GetProperty("hatch").GetProperty("angle").GetDouble(), loss.GetProperty("hatch").GetProperty("fine").GetArrayLength()));
        Assert.Equal("reading", all.Single(a => a.GetProperty("key").GetString() == "veiled-addition").GetProperty("category").GetString());
    }

    [Theory]
    [InlineData("plan.svg?state=01a21561-7337-7790-a69f-a604430fca6f", HttpStatusCode.NotFound, "unknown-state")]
    [InlineData("plan.svg?before=yesterday", HttpStatusCode.NotFound, "unknown-state")]
    [InlineData("plan.svg?light=GAMMA", HttpStatusCode.NotFound, "unknown-layer")]
    [InlineData("plan.svg?widthMm=100000", HttpStatusCode.BadRequest, "plan-size")]
    public async Task What_cannot_be_drawn_is_refused(string what, HttpStatusCode status, string code)
    {
        using var answer = await server.Client.GetAsync($"{Api}/{what}", TestContext.Current.CancellationToken);
        await answer.ProblemAsync(status, code);
    }
}
