using System.Text.Json.Nodes;
using Microsoft.Playwright;

namespace Sandarac.Browser.Tests;

/// <summary>A length that a person measured on the object corrects the painting's size.</summary>
public sealed class DistanceTests(SpecimenStudio studio)
{
    private const float HalfPx = 150;
    private const double Mm = 0.8, Believed = 2 * HalfPx * Mm;

    [Fact]
    public async Task The_size_follows_the_distance_and_what_readings_do_is_said()
    {
        var painting = studio.ExamineAlone("VIS_01.tif");
        await using var page = await studio.OpenAsync("?at=259,206&mm=0.8", painting: painting);
        await MeasureAsync(page, "120");
        await Assertions.Expect(page.Page.Locator(".notices")).ToContainTextAsync("until the folder is examined again", new() { Timeout = 30_000 });
        await page.SettleAsync("distance-corrected");

        // Both ends are clicked on whole screen pixels.
        var now = await page.AskAsync($"/api/paintings/{painting}");
        Assert.Equal(518 * 120 / Believed, now.GetProperty("widthMm").GetDouble(), 518 * 120 / Believed / (2 * HalfPx));
        Assert.Equal("distance", now.GetProperty("sizeOrigin").GetString());
        await page.Page.GotoAsync(page.Server.ToString());
        await Assertions.Expect(page.Page.Locator($"a[href*='{painting}']").GetByText(FormattableString.Invariant($"{now.GetProperty("heightMm").GetDouble():0.#} x {now.GetProperty("widthMm").GetDouble():0.#} mm"))).ToBeVisibleAsync();
    }

    [Fact]
    public async Task A_photograph_that_could_not_be_aligned_again_is_named()
    {
        var painting = studio.ExamineAlone("VIS_01.tif");
        await using var page = await studio.OpenAsync("?at=259,206&mm=0.8", painting: painting);
        await page.Page.RouteAsync("**/api/runs/*", async route =>
        {
            var answer = await route.FetchAsync();
            var run = JsonNode.Parse(await answer.TextAsync())!;
            (run["state"], run["problem"]) = ("failed", JsonNode.Parse("""{"message":"The disk is full.","remedy":"Make room."}"""));
            await route.FulfillAsync(new() { Response = answer, Body = run.ToJsonString() });
        });
        await MeasureAsync(page, "120");
        await Assertions.Expect(page.Page.Locator(".notices")).ToContainTextAsync("VIS_01.tif: The disk is full. Make room.", new() { Timeout = 30_000 });
    }

    [Fact]
    public async Task A_distance_beyond_reason_is_refused_in_words()
    {
        await using var page = await studio.OpenAsync("?at=259,206&mm=0.8");
        await MeasureAsync(page, "90000");
        await Assertions.Expect(page.Page.Locator(".measured [role=status]")).ToContainTextAsync("Check the distance and its unit");
        Assert.Equal(518, (await page.AskAsync($"/api/paintings/{studio.Painting}")).GetProperty("widthMm").GetDouble());
        Assert.Single(page.Complaints, c => c.Contains("/distance", StringComparison.Ordinal) && c.StartsWith("400", StringComparison.Ordinal));
        page.Complaints.Clear();
    }

    /// <summary>Draws a level line through the middle and says how long it really is.</summary>
    private static async Task MeasureAsync(EaselPage page, string mm)
    {
        await page.SettleAsync();
        var stage = await page.StageAsync();
        var (x, y) = (stage.X + stage.Width / 2, stage.Y + stage.Height / 2);
        await page.PressAsync("k");
        await page.Page.Mouse.ClickAsync(x - HalfPx, y);
        await page.Page.Mouse.MoveAsync(x + HalfPx - 20, y);
        await page.Page.Mouse.DblClickAsync(x + HalfPx, y);
        await page.Page.GetByLabel("This is really").FillAsync(mm);
        await page.SettleAsync("distance");
        await page.Page.GetByRole(AriaRole.Button, new() { Name = "Correct the size" }).ClickAsync();
    }
}
