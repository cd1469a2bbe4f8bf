using Deque.AxeCore.Playwright;
using Microsoft.Playwright;

namespace Sandarac.Browser.Tests;

/// <summary>What readings propose is judged by keys on the Easel, and findings are written on their page.</summary>
public sealed class FindingTests(SpecimenStudio studio)
{
    private Guid _painting;

    [Fact]
    public async Task Candidates_are_judged_by_keys_and_what_was_kept_is_written_on()
    {
        _painting = studio.ExamineAlone("VIS_01.tif");
        await using var page = await studio.OpenAsync("", bypassPolicy: true, painting: _painting);
        await page.SettleAsync();
        for (var i = 0; i < 4; i++) await ProposeAsync(page, $"Proposed {i + 1}", 100 + 80 * i, 0.9 - 0.1 * i);
        await page.Page.ReloadAsync();
        await page.SettleAsync();
        var panel = page.Page.Locator(".candidate");

        await page.PressAsync("PageDown");
        await Assertions.Expect(panel).ToContainTextAsync("Candidate 1 of 4");
        Assert.Contains("zone=", await page.LinkAsync(), StringComparison.Ordinal);
        var name = await panel.GetByRole(AriaRole.Heading).InnerTextAsync();
        await page.PressAsync("y");
        await Assertions.Expect(panel).ToContainTextAsync("Candidate 1 of 3");
        await Assertions.Expect(panel.GetByRole(AriaRole.Heading)).Not.ToHaveTextAsync(name);
        await page.Page.ScreenshotAsync(new() { Path = Path.Combine(SpecimenStudio.Artifacts, "candidate.png") });

        // It is none: the reason is asked for, and stays in the record.
        await page.PressAsync("Delete");
        await Assertions.Expect(panel.GetByLabel("Why it is none")).ToBeFocusedAsync();
        await page.Page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(panel).ToContainTextAsync("of 3");
        await page.Page.Keyboard.TypeAsync("the frame throws a shadow");
        await page.Page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(panel).ToContainTextAsync("of 2");
        Assert.Equal(["the frame throws a shadow", ""], await ReasonsAsync(page));
        await page.Page.Locator(".pane.top").FocusAsync();
        await page.PressAsync("Control+z");
        await Assertions.Expect(page.Page.Locator(".zonepanel ul.zones small")).ToHaveCountAsync(3);
        Assert.Equal([""], await ReasonsAsync(page));

        await page.Page.GetByRole(AriaRole.Link, new() { Name = "Findings", Exact = true }).ClickAsync();
        await WriteAsync(page, name);
        await JudgeManyAsync(page);
    }

    /// <summary>What was kept says what the reading says; a person adds what is made of it, and a severity only with its definition.</summary>
    private static async Task WriteAsync(EaselPage page, string name)
    {
        await page.Page.GetByRole(AriaRole.Link, new() { Name = "without a term" }).ClickAsync();
        await Assertions.Expect(page.Page.GetByLabel("Observation: what is seen")).ToHaveValueAsync(name);
        await page.Page.GetByLabel("Interpretation: what is made of it").FillAsync("Retouching over the varnish.");
        await page.Page.GetByLabel("Term", new() { Exact = true }).FillAsync("later addition/overpaint");
        await page.Page.GetByLabel("Severity", new() { Exact = true }).FillAsync("slight");
        await page.Page.GetByRole(AriaRole.Button, new() { Name = "Supersede what it said" }).ClickAsync();
        await Assertions.Expect(page.Page.GetByRole(AriaRole.Alert)).ToContainTextAsync("without its definition");
        await Assertions.Expect(page.Page.GetByLabel("Interpretation: what is made of it")).ToHaveValueAsync("Retouching over the varnish.");
        await page.Page.GetByLabel("What that word means here").FillAsync("seen only in ultraviolet");
        await page.Page.GetByRole(AriaRole.Button, new() { Name = "Supersede what it said" }).ClickAsync();
        await Assertions.Expect(page.Page.Locator("details.small summary").First).ToContainTextAsync("2 revisions");
        await AssertNoSeriousIssueAsync(page);
        await page.Page.ScreenshotAsync(new() { Path = Path.Combine(SpecimenStudio.Artifacts, "finding.png"), FullPage = true });
    }

    private async Task JudgeManyAsync(EaselPage page)
    {
        await page.Page.GetByRole(AriaRole.Link, new() { Name = "3 candidates" }).ClickAsync();
        var ticks = page.Page.Locator("input[name=candidates]");
        await ticks.Nth(0).CheckAsync();
        await ticks.Nth(1).CheckAsync();
        await page.Page.GetByRole(AriaRole.Button, new() { Name = "Not these" }).ClickAsync();
        await Assertions.Expect(page.Page.GetByRole(AriaRole.Alert)).ToContainTextAsync("needs a reason");
        await Assertions.Expect(ticks.Nth(1)).ToBeCheckedAsync();
        await page.Page.GetByRole(AriaRole.Button, new() { Name = "Keep those ticked as findings" }).ClickAsync();
        await Assertions.Expect(ticks).ToHaveCountAsync(1);
        await AssertNoSeriousIssueAsync(page);
        var findings = await page.AskAsync($"/api/paintings/{_painting}/findings");
        Assert.Equal(3, findings.GetArrayLength());
        await page.Page.GetByRole(AriaRole.Button, new() { Name = "Take back the decision about" }).First.ClickAsync();
        await Assertions.Expect(ticks).ToHaveCountAsync(2);
    }

    private async Task ProposeAsync(EaselPage page, string name, int x, double confidence) => await page.ChangeAsync($"/api/paintings/{_painting}/zones", new
    {
        name, kind = "later-addition", isCandidate = true, confidence, geometry = new { type = "Polygon", coordinates = new[] { new[] { new[] { x, 150 }, [x + 40, 150], [x + 40, 200], [x, 150] } } },
    });

    private async Task<IEnumerable<string?>> ReasonsAsync(EaselPage page) =>
        (await page.AskAsync($"/api/paintings/{_painting}/candidates/judged")).EnumerateArray().Select(j => j.GetProperty("reason").GetString());

    private static async Task AssertNoSeriousIssueAsync(EaselPage page) =>
        Assert.Empty((await page.Page.RunAxe()).Violations.Where(v => v.Impact is "serious" or "critical").Select(v => $"{v.Id}: {v.Help}"));
}
