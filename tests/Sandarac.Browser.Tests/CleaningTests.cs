using System.Text.RegularExpressions;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;

namespace Sandarac.Browser.Tests;

/// <summary>A cleaning test is planned at a place of the Easel, written down on its page, and stands on the Easel and in what is known near its place.</summary>
public sealed class CleaningTests(SpecimenStudio studio)
{
    [Fact]
    public async Task A_test_is_planned_from_the_Easel_and_flagged_when_it_went_further_than_planned()
    {
        var painting = studio.ExamineAlone("VIS_01.tif");
        await using var page = await studio.OpenAsync("?at=259,206&mm=0.8", bypassPolicy: true, painting: painting);
        await KeepPlaceAsync(page);
        await page.Page.GetByRole(AriaRole.Link, new() { Name = "Plan a cleaning test here" }).ClickAsync();
        await Assertions.Expect(page.Page.GetByLabel("From the left edge")).ToHaveValueAsync(new Regex(@"^\d+(\.\d+)?$"));
        await PlanAsync(page.Page);
        await DoneAsync(page.Page);
        await Assertions.Expect(page.Page.GetByRole(AriaRole.Region, new() { Name = "Cleaning tests" })).ToContainTextAsync("It went further than planned");
        await Assertions.Expect(page.Page.GetByRole(AriaRole.Region, new() { Name = "What the tests say" }).Locator("svg")).ToContainTextAsync("went further than planned");
        var serious = (await page.Page.RunAxe()).Violations.Where(v => v.Impact is "serious" or "critical");
        Assert.Empty(serious.Select(v => $"{v.Id}: {v.Help}: {string.Join(" | ", v.Nodes.Select(n => n.Html))}"));
        await page.Page.ScreenshotAsync(new() { Path = Path.Combine(SpecimenStudio.Artifacts, "cleaning.png"), FullPage = true });
        await page.Page.GotoAsync(new Uri(new Uri(page.Page.Url), $"/paintings/{painting}/easel?at=259,206&mm=0.8").ToString());
        await KeepPlaceAsync(page);
        await Assertions.Expect(page.Page.Locator(".here")).ToContainTextAsync("Test 1, ethanol 20 + isooctane 80");
    }

    private static async Task KeepPlaceAsync(EaselPage page)
    {
        await page.SettleAsync();
        var stage = await page.StageAsync();
        await page.Page.Mouse.ClickAsync(stage.X + stage.Width / 2 + 50, stage.Y + stage.Height / 2 + 40);
        await Assertions.Expect(page.Page.Locator(".here .where")).ToContainTextAsync("kept");
    }

    private static async Task PlanAsync(IPage page)
    {
        await page.GetByLabel("Agent, parts in percent by volume").FillAsync("ethanol + isooctane 80");
        await page.GetByRole(AriaRole.Button, new() { Name = "Write this test down" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("\"ethanol\" has no share");
        await page.GetByLabel("Agent, parts in percent by volume").FillAsync("ethanol 20 + isooctane 80");
        await page.GetByLabel("Planned time").FillAsync("20");
        await page.GetByRole(AriaRole.Button, new() { Name = "Write this test down" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Region, new() { Name = "Cleaning tests" })).ToContainTextAsync("planned");
    }

    private static async Task DoneAsync(IPage page)
    {
        await page.GetByLabel("Done on").FillAsync("2026-05-04");
        await page.GetByLabel("Done by").FillAsync("Marta Oud");
        await page.GetByLabel("On varnish").SelectOptionAsync("Removed");
        await page.GetByLabel("On the painter's paint").SelectOptionAsync("Softened");
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep these changes" }).ClickAsync();
    }
}
