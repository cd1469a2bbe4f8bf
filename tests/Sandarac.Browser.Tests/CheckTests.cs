using Deque.AxeCore.Playwright;
using Microsoft.Playwright;

namespace Sandarac.Browser.Tests;

/// <summary>A painting's condition is checked against an earlier state, drawn, sealed and signed by both parties, by what is on the pages alone.</summary>
public sealed class CheckTests(SpecimenStudio studio)
{
    private Guid _painting;

    [Fact]
    public async Task A_check_is_begun_answered_sealed_and_signed_and_its_plan_is_drawn()
    {
        _painting = studio.ExamineAlone("VIS_01.tif");
        await using var page = await studio.OpenAsync("", "checks", bypassPolicy: true, painting: _painting);
        await page.ChangeAsync($"/api/paintings/{_painting}/findings", new { observation = "a veil over the sky", author = "Marta Oud", term = "varnish/blanching (varnish)" });
        await BeginAsync(page, "leaving", "nothing: the findings as they stand");
        await SealAsync(page, "Seal this state");
        await BeginAsync(page, "arriving", "leaving");
        await page.Page.GetByLabel("How finding 1 stands").SelectOptionAsync("Changed");
        await page.Page.GetByLabel("Note on finding 1").FillAsync("paler than it was");
        await page.Page.GetByRole(AriaRole.Button, new() { Name = "Store the answer to finding 1" }).ClickAsync();
        await Assertions.Expect(page.Page.GetByLabel("Note on finding 1")).ToHaveValueAsync("paler than it was");
        await AssertNoSeriousIssueAsync(page);
        await SealAsync(page, "Seal this state");
        await SignAsync(page, "Ines Vaart", "courier", "Invented Coast Museum");
        await SignAsync(page, "Tom Brug", "registrar", "Gallery of the Estuary");
        await Assertions.Expect(page.Page.Locator("section#state ol li")).ToHaveCountAsync(2);
        await Assertions.Expect(page.Page.Locator("section#state")).ToContainTextAsync("every signature names it");
        await AssertNoSeriousIssueAsync(page);
        await page.Page.ScreenshotAsync(new() { Path = Path.Combine(SpecimenStudio.Artifacts, "check.png"), FullPage = true });

        await page.Page.GetByRole(AriaRole.Link, new() { Name = "Plan", Exact = true }).ClickAsync();
        await Assertions.Expect(page.Page.Locator(".drawing.plan svg").First).ToContainTextAsync("1 finding");
        await AssertNoSeriousIssueAsync(page);
        await page.Page.ScreenshotAsync(new() { Path = Path.Combine(SpecimenStudio.Artifacts, "plan.png"), FullPage = true });
    }

    private static async Task BeginAsync(EaselPage page, string name, string comparedWith)
    {
        var form = page.Page.Locator("form", new() { Has = page.Page.Locator("#entry-occasion") });
        await form.GetByLabel("Compared with").SelectOptionAsync(new SelectOptionValue { Label = comparedWith });
        await form.GetByLabel("Name", new() { Exact = true }).FillAsync(name);
        await form.GetByRole(AriaRole.Button, new() { Name = "Begin" }).ClickAsync();
        await Assertions.Expect(page.Page.Locator("#state-name")).ToHaveTextAsync(name);
    }

    private static async Task SealAsync(EaselPage page, string button)
    {
        await page.Page.GetByRole(AriaRole.Button, new() { Name = button }).ClickAsync();
        await Assertions.Expect(page.Page.Locator("section#state code")).ToBeVisibleAsync();
    }

    private static async Task SignAsync(EaselPage page, string name, string role, string organisation)
    {
        var form = page.Page.Locator("form", new() { Has = page.Page.Locator("#entry-organisation") });
        await form.GetByLabel("Name", new() { Exact = true }).FillAsync(name);
        await form.GetByLabel("Role").FillAsync(role);
        await form.GetByLabel("For whom").FillAsync(organisation);
        await form.GetByRole(AriaRole.Button).ClickAsync();
        await Assertions.Expect(page.Page.Locator("section#state ol li").Filter(new() { HasText = name })).ToBeVisibleAsync();
    }

    private static async Task AssertNoSeriousIssueAsync(EaselPage page) =>
        Assert.Empty((await page.Page.RunAxe()).Violations.Where(v => v.Impact is "serious" or "critical").Select(v => $"{v.Id}: {v.Help}: {string.Join("; ", v.Nodes.Select(n => n.Html))}"));
}
