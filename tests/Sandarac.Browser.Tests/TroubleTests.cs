using Microsoft.Playwright;

namespace Sandarac.Browser.Tests;

/// <summary>What people see when something is wrong.</summary>
public sealed class TroubleTests(SpecimenStudio studio)
{
    [Fact]
    public async Task A_lost_server_is_said_plainly_and_tried_again()
    {
        await using var page = await studio.OpenAsync();
        await page.SettleAsync();
        await page.Page.RouteAsync("**/api/**", route => route.AbortAsync());
        await page.PressAsync("3");
        var notice = page.Page.Locator(".notice", new() { HasText = "The server does not answer" });
        await Assertions.Expect(notice).ToBeVisibleAsync();
        await page.SettleAsync("lost-server");
        await page.Page.UnrouteAllAsync();
        page.Complaints.Clear();
        await notice.GetByRole(AriaRole.Button).ClickAsync();
        await Assertions.Expect(notice).ToBeHiddenAsync();
        await page.SettleAsync();
    }

    [Fact]
    public async Task Missing_tiles_are_counted_and_the_rest_stays()
    {
        await using var page = await studio.OpenAsync();
        await page.SettleAsync();
        var id = (await page.LayerAsync(studio.Painting, "UVL_01")).Id();
        await page.Page.RouteAsync($"**/api/layers/{id}/tiles/**", route => route.FulfillAsync(new() { Status = 404 }));
        await page.Page.GotoAsync(new Uri(page.Page.Url).GetLeftPart(UriPartial.Path) + $"?a={id}");
        await Assertions.Expect(page.Page.Locator(".notice:visible")).ToContainTextAsync("of UVL_01");
        await page.PressAsync("1");
        await page.SettleAsync();
        foreach (var provoked in page.Complaints.Where(c => c.Contains($"/api/layers/{id}/tiles/", StringComparison.Ordinal)).ToList()) page.Complaints.Remove(provoked);
    }

    [Fact]
    public async Task A_painting_without_photographs_says_so()
    {
        await using var page = await studio.OpenAsync();
        await page.Page.GotoAsync(new Uri(page.Server, $"/paintings/{studio.EmptyPainting}/easel").ToString());
        await Assertions.Expect(page.Page.Locator(".strip")).ToContainTextAsync("No photograph of this painting is stored yet.");
        await page.PressAsync("d", "c", "?", "Escape", "h");
        await page.SettleAsync("empty");
    }
}
