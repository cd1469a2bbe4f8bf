using System.Text.RegularExpressions;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;

namespace Sandarac.Browser.Tests;

/// <summary>Marks are made, learnt from, kept through trouble and reloads, and taught to the whole painting; components are computed and read.</summary>
public sealed class TeachTests(SpecimenStudio studio)
{
    private const string View = "?at=259,206&mm=0.8";

    [Fact, Trait("Speed", "slow")]
    public async Task Marks_are_learnt_from_kept_and_taught_to_the_whole_painting()
    {
        await using var page = await studio.OpenAsync(View, painting: studio.DrawnOn);
        await page.SettleAsync();
        await page.PressAsync("t");
        foreach (var name in new[] { "sky", "shore" })
        {
            await page.Page.GetByLabel("Class to add").FillAsync(name);
            await page.Page.GetByLabel("Class to add").PressAsync("Enter");
        }
        await page.Page.Locator(".pane.top").FocusAsync();
        await page.PressAsync("1");
        for (var i = 0; i < 6; i++) await StrokeAsync(page, -250 + 95 * i, -190 + 12 * (i % 2));
        await page.PressAsync("2");
        for (var i = 0; i < 5; i++) await StrokeAsync(page, -250 + 95 * i, 170 + 12 * (i % 2));
        var learnt = await page.Page.RunAndWaitForResponseAsync(() => StrokeAsync(page, 225, 182), r => r.Url.EndsWith("/teach", StringComparison.Ordinal) && r.Status == 200);
        Assert.Equal(200, learnt.Status);
        await Assertions.Expect(page.Page.Locator(".standing").First).ToContainTextAsync(new Regex("Separable|not separable"));
        await Assertions.Expect(page.Page.Locator(".learnt")).ToContainTextAsync("Balanced accuracy");
        await Assertions.Expect(page.Page.Locator(".learnt svg")).ToHaveAttributeAsync("aria-label", new Regex("was said"));
        var shown = await page.SettleAsync("teach");
        await page.PressAsync("y");
        var hidden = await page.SettleAsync();
        Assert.True(Differing(shown, hidden, await page.StageAsync()) > 100, "the probability is not seen");
        await page.PressAsync("y");

        await page.Page.GetByLabel("Stroke 2 of shore").ClickAsync();
        await page.PressAsync("Delete");
        await StoredAsync(page, 11);
        await page.PressAsync("Control+z");
        await StoredAsync(page, 12);

        await page.Page.RouteAsync("**/marks", route => route.AbortAsync());
        await StrokeAsync(page, 0, 140);
        await Assertions.Expect(page.Page.Locator(".keptstate")).ToContainTextAsync("They stay here");
        await page.Page.UnrouteAllAsync();
        await page.Page.GetByRole(AriaRole.Button, new() { Name = "Store them now" }).ClickAsync();
        await StoredAsync(page, 13);
        page.Complaints.Clear();

        await page.Page.ReloadAsync();
        await Assertions.Expect(page.Page.Locator(".pen").Nth(1)).ToContainTextAsync("7 strokes");
        var whole = page.Page.GetByRole(AriaRole.Button, new() { Name = "Teach the whole painting" });
        await Assertions.Expect(whole).ToBeEnabledAsync(new() { Timeout = 20_000 });
        await whole.ClickAsync();
        await Assertions.Expect(page.Page.Locator(".notices")).ToContainTextAsync("The whole painting was taught", new() { Timeout = 60_000 });
        var run = (await page.AskAsync($"/api/paintings/{studio.DrawnOn}/runs?reading=taught-zones"))[0];
        Assert.Equal("done", run.GetProperty("state").GetString());
        Assert.Equal(13, Regex.Count(run.GetProperty("parameters").GetProperty("marks").GetString()!, "LineString"));
        await page.Page.Locator(".pane.top").FocusAsync();
        await page.PressAsync("Escape");
        await Assertions.Expect(page.Page.Locator(".teach")).ToBeHiddenAsync();
        // Its areas would lie over what other tests draw.
        await page.PressAsync("t");
        var away = page.Page.GetByRole(AriaRole.Button, new() { Name = "Take all away" });
        if (run.GetProperty("figures").EnumerateArray().Any(f => f.GetProperty("name").GetString() == "candidates" && f.GetProperty("value").GetDouble() > 0)) await away.ClickAsync();
        await EaselPage.InTheEndAsync(async () => Assert.DoesNotContain((await page.AskAsync($"/api/paintings/{studio.DrawnOn}/zones")).EnumerateArray(), z => z.GetProperty("isCandidate").GetBoolean()));
    }

    [Fact, Trait("Speed", "slow")]
    public async Task Components_are_computed_and_their_loadings_read()
    {
        await using (var page = await studio.OpenAsync(View + "&stretch=1", painting: studio.DrawnOn))
        {
            await page.SettleAsync();
            await page.Page.GetByRole(AriaRole.Button, new() { Name = "Compute" }).ClickAsync();
            await Assertions.Expect(page.Page.Locator(".notices")).ToContainTextAsync("Component 1 lies on A", new() { Timeout = 60_000 });
            await Assertions.Expect(page.Page.Locator(".loadings")).ToContainTextAsync("VIS_01 red");
            await Assertions.Expect(page.Page.Locator(".label.a")).ToContainTextAsync("Component 1");
            await page.SettleAsync("components");
        }
        // axe is a script put into the page, which the page's own policy forbids.
        await using var open = await studio.OpenAsync(View + "&stretch=1&teach=1", painting: studio.DrawnOn, bypassPolicy: true);
        await Assertions.Expect(open.Page.Locator(".loadings")).ToBeVisibleAsync();
        var found = await open.Page.RunAxe();
        Assert.Empty(found.Violations.Where(v => v.Impact is "serious" or "critical").Select(v => $"{v.Id}: {v.Help}: {string.Join("; ", v.Nodes.Select(n => n.Html))}"));
        await AssertReachedAsync(open, ".teach");
        await AssertReachedAsync(open, ".panel.stretch");
    }

    /// <summary>Everything in a part of the page that can be pressed or filled in is reached by Tab.</summary>
    private static async Task AssertReachedAsync(EaselPage page, string part)
    {
        var wanted = await page.Page.Locator($"{part} :is(button, input, select, summary):visible:enabled").CountAsync();
        await page.Page.Locator($"{part} :is(button, input, select, summary):visible:enabled").First.FocusAsync();
        var reached = 1;
        for (; reached < wanted; reached++)
        {
            await page.Page.Keyboard.PressAsync("Tab");
            if (!await page.Page.EvaluateAsync<bool>("part => document.querySelector(part).contains(document.activeElement)", part)) break;
        }
        Assert.Equal(wanted, reached);
    }

    private static async Task StrokeAsync(EaselPage page, float dx, float dy)
    {
        var stage = await page.StageAsync();
        var (x, y) = (stage.X + stage.Width / 2 + dx, stage.Y + stage.Height / 2 + dy);
        await page.Page.Mouse.MoveAsync(x, y);
        await page.Page.Mouse.DownAsync();
        await page.Page.Mouse.MoveAsync(x + 22, y + 4, new() { Steps = 4 });
        await page.Page.Mouse.UpAsync();
    }

    private Task StoredAsync(EaselPage page, int marks) => EaselPage.InTheEndAsync(async () =>
        Assert.Equal(marks, (await page.AskAsync($"/api/paintings/{studio.DrawnOn}/marks")).GetProperty("marks").GetProperty("features").GetArrayLength()));

    private static int Differing(Screen a, Screen b, LocatorBoundingBoxResult stage)
    {
        var count = 0;
        for (var x = stage.X + 5; x < stage.X + stage.Width - 5; x += 5)
            for (var y = stage.Y + 5; y < stage.Y + stage.Height - 5; y += 5)
                if (a.Difference(b, x, y) > 30) count++;
        return count;
    }
}
