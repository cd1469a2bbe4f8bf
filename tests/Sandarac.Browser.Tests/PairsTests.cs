using System.Text.Json;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;

namespace Sandarac.Browser.Tests;

/// <summary>Alignment by pairs: set and judged by keys alone, then aligned by.</summary>
public sealed class PairsTests(SpecimenStudio studio)
{
    private const string Photograph = "RAK_N_az000_el15";

    [Fact, Trait("Speed", "slow")]
    public async Task Pairs_are_set_by_keys_judged_and_aligned_by()
    {
        await using var page = await studio.OpenAsync();
        var path = $"/api/photographs/{await OpenPairsAsync(page)}";
        var before = (await page.AskAsync(path)).GetProperty("alignments").GetArrayLength();

        // Two steps to the upper left, then round about the middle.
        foreach (var way in (string[][])[["ArrowLeft", "ArrowUp"], ["ArrowRight", "ArrowRight"], ["ArrowDown", "ArrowDown"], ["ArrowLeft", "ArrowLeft"], ["ArrowUp", "ArrowRight"]])
            await SetPairAsync(page, way);
        await Assertions.Expect(page.Page.Locator(".summary")).ToContainTextAsync("through 5 pairs");
        await Assertions.Expect(page.Page.Locator(".pairtable tr[data-pair]")).ToHaveCountAsync(5);
        await Assertions.Expect(page.Page.Locator(".pairtable")).ToContainTextAsync("Snapped by");
        Assert.InRange(await OffAsync(page, 5), 0, 1);
        await page.SettleAsync("pairs");

        // The mark in the photograph has the focus since it was set.
        await page.PressAsync("Shift+ArrowRight", "Shift+ArrowRight");
        await Assertions.Expect(page.Page.Locator(".pairtable")).ToContainTextAsync("Look at it again");
        await page.SettleAsync("pairs-doubt");
        await page.PressAsync("Control+z", "Control+z");
        await Assertions.Expect(page.Page.Locator(".pairtable")).Not.ToContainTextAsync("Look at it again");

        await page.Page.GetByRole(AriaRole.Button, new() { Name = "Lock pair 1" }).FocusAsync();
        await page.PressAsync("Enter");
        await page.Page.Locator("[data-point=pixel] .mark[data-pair='1']").FocusAsync();
        await page.SettleAsync();
        var locked = await OffAsync(page, 1);
        await page.PressAsync("Shift+ArrowLeft");
        await page.Page.GetByRole(AriaRole.Button, new() { Name = "Align by these pairs" }).FocusAsync();
        await page.PressAsync("Enter");
        await Assertions.Expect(page.Page.Locator(".result")).ToContainTextAsync($"Version {before + 1} is in force now: uncertain", new() { Timeout = 20_000 });
        // Five pairs round about the middle say nothing of the rest.
        await Assertions.Expect(page.Page.GetByText("They enclose")).ToBeVisibleAsync();
        Assert.Equal(locked, await OffAsync(page, 1));
        await page.SettleAsync("pairs-aligned");

        var now = (await page.AskAsync(path)).GetProperty("alignments").EnumerateArray().Last();
        Assert.Equal("pairs-by-hand", now.GetProperty("method").GetString());
        Assert.InRange(now.GetProperty("residuals").GetProperty("p95Mm").GetDouble(), 0, 3);
        Assert.Equal(5, (await page.AskAsync(path + "/pairs")).GetArrayLength());
    }

    [Fact, Trait("Speed", "slow")]
    public async Task An_automatic_alignment_shows_what_it_leaves()
    {
        await using var page = await studio.OpenAsync();
        var photograph = await OpenPairsAsync(page, "UVL_01");
        await page.Page.GetByRole(AriaRole.Button, new() { Name = "Align automatically" }).ClickAsync();
        await Assertions.Expect(page.Page.Locator(".result")).ToContainTextAsync("is in force now", new() { Timeout = 60_000 });
        await Assertions.Expect(page.Page.Locator(".legend")).ToContainTextAsync("50 times as long");
        var left = (await page.AskAsync($"/api/photographs/{photograph}/residual")).EnumerateArray().ToList();
        Assert.True(left.Count > 20, $"{left.Count} places");
        Assert.All(left, r => Assert.InRange(Length(r.GetProperty("residual")), 0, 2));
    }

    [Fact, Trait("Speed", "slow")]
    public async Task No_serious_issue()
    {
        await using var page = await studio.OpenAsync(bypassPolicy: true);
        await OpenPairsAsync(page);
        await SetPairAsync(page, []);
        var found = await page.Page.RunAxe();
        Assert.Empty(found.Violations.Where(v => v.Impact is "serious" or "critical").Select(v => $"{v.Id}: {v.Help}: {string.Join("; ", v.Nodes.Select(n => n.Html))}"));
    }

    private async Task<string> OpenPairsAsync(EaselPage page, string label = Photograph)
    {
        var photograph = (await page.LayerAsync(studio.Painting, label)).Photograph();
        await page.Page.GotoAsync(new Uri(page.Page.Url).GetLeftPart(UriPartial.Path) + $"?pairs={photograph}");
        await page.SettleAsync();
        return photograph;
    }

    /// <summary>Moves the reference, waits until the photograph has followed, and sets a pair in both middles.</summary>
    private static async Task SetPairAsync(EaselPage page, string[] way)
    {
        await page.Page.Locator("[data-point=place]").FocusAsync();
        await page.PressAsync(way);
        await Task.Delay(400, TestContext.Current.CancellationToken);
        await page.SettleAsync();
        await page.PressAsync("n");
        await page.SettleAsync();
    }

    private static async Task<double> OffAsync(EaselPage page, int pair) =>
        double.Parse(await page.Page.Locator($".pairtable tr[data-pair='{pair}'] .number").First.InnerTextAsync(), System.Globalization.CultureInfo.InvariantCulture);

    private static double Length(JsonElement vector) => Math.Sqrt(Math.Pow(vector[0].GetDouble(), 2) + Math.Pow(vector[1].GetDouble(), 2));
}
