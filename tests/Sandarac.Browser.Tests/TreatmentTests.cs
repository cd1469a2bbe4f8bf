using Deque.AxeCore.Playwright;
using Microsoft.Playwright;

namespace Sandarac.Browser.Tests;

/// <summary>A treatment is proposed, approved, carried out and followed by what is on the pages alone, and its places are seen on the Easel.</summary>
public sealed class TreatmentTests(SpecimenStudio studio)
{
    [Fact]
    public async Task A_treatment_is_proposed_approved_logged_and_its_progress_seen()
    {
        var painting = studio.ExamineAlone("VIS_01.tif");
        await using var page = await studio.OpenAsync("", "proposal", bypassPolicy: true, painting: painting);
        await ZoneAsync(page, painting, "band", 200);
        await ZoneAsync(page, painting, "first part", 50);
        await ProposeAsync(page.Page);
        await AssertNoSeriousIssueAsync(page);
        await ApproveAsync(page.Page);
        await AssertNoSeriousIssueAsync(page);

        await page.Page.GetByRole(AriaRole.Button, new() { Name = "Make the treatment's steps from it" }).ClickAsync();
        await page.Page.GetByRole(AriaRole.Region, new() { Name = "Steps and how far they are" }).GetByRole(AriaRole.Link, new() { Name = "Varnish over the band" }).ClickAsync();
        await LogAsync(page.Page);
        await Assertions.Expect(page.Page.GetByRole(AriaRole.Region, new() { Name = "Progress by day" }).Locator("svg")).ToContainTextAsync("25");
        await Assertions.Expect(page.Page.GetByRole(AriaRole.Region, new() { Name = "Entries by day" })).ToContainTextAsync("isooctane, 20 mL, batch B7: used");
        await Assertions.Expect(page.Page.GetByText("An interval needs 3 of either.")).ToBeVisibleAsync();
        await AssertNoSeriousIssueAsync(page);
        await page.Page.ScreenshotAsync(new() { Path = Path.Combine(SpecimenStudio.Artifacts, "treatment.png"), FullPage = true });

        await page.Page.GetByRole(AriaRole.Link, new() { Name = "On the Easel, day by day" }).ClickAsync();
        var desk = page.Page.GetByRole(AriaRole.Region, new() { Name = "Treatment" });
        await Assertions.Expect(desk.GetByRole(AriaRole.Status)).ToContainTextAsync("25.0");
        await Assertions.Expect(desk.Locator(".classkey")).ToHaveTextAsync("doneto do");
        await AssertNoSeriousIssueAsync(page);
        await page.PressAsync("Shift+T");
        await Assertions.Expect(desk).ToBeHiddenAsync();
    }

    private static Task ZoneAsync(EaselPage page, Guid painting, string name, double width) => page.ChangeAsync($"/api/paintings/{painting}/zones", new
    {
        name, geometry = new { type = "Polygon", coordinates = new[] { new[] { new[] { 10.0, 10 }, [10 + width, 10], [10 + width, 60], [10, 60], [10, 10] } } },
    });

    private static async Task ProposeAsync(IPage page)
    {
        await page.GetByRole(AriaRole.Link, new() { Name = "Write a proposal" }).ClickAsync();
        await page.GetByLabel("Title").FillAsync("Taking off the varnish");
        await page.GetByRole(AriaRole.Button, new() { Name = "Begin this proposal" }).ClickAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "Add an option" }).ClickAsync();
        await page.GetByLabel("Name", new() { Exact = true }).FillAsync("Thin it");
        await page.GetByLabel("Hours, at least").FillAsync("5");
        await page.GetByLabel("Hours, at most").FillAsync("9");
        await page.GetByRole(AriaRole.Button, new() { Name = "Add this option" }).ClickAsync();
        // A range without a basis is refused, and what was entered stays.
        await Assertions.Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("does not say what it rests on");
        await page.GetByLabel("What the hours rest on").FillAsync("a timed test");
        await page.GetByRole(AriaRole.Button, new() { Name = "Add this option" }).ClickAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "Add a step to \"Thin it\"" }).ClickAsync();
        await page.GetByLabel("Name", new() { Exact = true }).FillAsync("Varnish over the band");
        await page.GetByLabel("Operation").FillAsync("clean/varnish removal");
        await page.GetByLabel("Risks, and what is done against them").FillAsync("The glaze may soften.");
        await page.GetByLabel("band").CheckAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Add this step" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Region, new() { Name = "Steps of Thin it" })).ToContainTextAsync("The glaze may soften.");
    }

    private static async Task ApproveAsync(IPage page)
    {
        await page.GetByLabel("Approved option").SelectOptionAsync(new SelectOptionValue { Label = "Thin it" });
        await page.GetByLabel("Who approves").FillAsync("Ines Vaart");
        await page.GetByLabel("As what").FillAsync("keeper of paintings");
        await page.GetByLabel("For whom").FillAsync("Invented Coast Museum");
        await page.GetByLabel("How the approval came").FillAsync("signed letter");
        await page.GetByRole(AriaRole.Button, new() { Name = "Enter this approval" }).ClickAsync();
        await Assertions.Expect(page.GetByText("The text is the one that was approved.")).ToBeVisibleAsync();
    }

    private static async Task LogAsync(IPage page)
    {
        await page.GetByLabel("Day", new() { Exact = true }).FillAsync("2026-03-02");
        await page.GetByLabel("Who", new() { Exact = true }).FillAsync("Marta Oud");
        await page.GetByLabel("Hours", new() { Exact = true }).FillAsync("2,5");
        await page.GetByLabel("What was done").FillAsync("Swabs, rolled.");
        await page.GetByLabel("first part").CheckAsync();
        await page.GetByRole(AriaRole.Textbox, new() { Name = "Material 1", Exact = true }).FillAsync("isooctane");
        await page.GetByLabel("Amount of material 1").FillAsync("20");
        await page.GetByLabel("Unit of material 1").FillAsync("mL");
        await page.GetByLabel("Batch of material 1").FillAsync("B7");
        await page.GetByRole(AriaRole.Button, new() { Name = "Write this entry" }).ClickAsync();
    }

    private static async Task AssertNoSeriousIssueAsync(EaselPage page) =>
        Assert.Empty((await page.Page.RunAxe()).Violations.Where(v => v.Impact is "serious" or "critical").Select(v => $"{v.Id}: {v.Help}: {string.Join("; ", v.Nodes.Select(n => n.Html))}"));
}
