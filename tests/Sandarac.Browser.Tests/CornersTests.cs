using System.Globalization;
using Microsoft.Playwright;

namespace Sandarac.Browser.Tests;

/// <summary>Corners by hand: nudged, stored, aligned again.</summary>
public sealed class CornersTests(SpecimenStudio studio)
{
    [Fact]
    public async Task Corners_are_nudged_and_the_photograph_is_aligned_again()
    {
        await using var page = await studio.OpenAsync();
        var photograph = (await page.LayerAsync(studio.Painting, "RAK_N_az000_el15")).Photograph();
        var path = $"/api/photographs/{photograph}";
        var found = (await page.AskAsync(path + "/corners")).GetProperty("corners");
        var before = (await page.AskAsync(path)).GetProperty("alignments").GetArrayLength();
        await page.Page.GotoAsync(new Uri(page.Page.Url).GetLeftPart(UriPartial.Path) + $"?corners={photograph}");
        await page.SettleAsync("corners");
        await page.Page.Locator(".loupe").Nth(1).FocusAsync();
        await page.PressAsync("ArrowRight", "ArrowRight", "Shift+ArrowDown", "Control+z", "Alt+ArrowUp");
        await page.Page.GetByRole(AriaRole.Button, new() { Name = "Align again" }).ClickAsync();
        await Assertions.Expect(page.Page.Locator(".result")).ToContainTextAsync("ligned", new() { Timeout = 20_000 });
        await page.SettleAsync("corners-aligned");

        var alignments = (await page.AskAsync(path)).GetProperty("alignments").EnumerateArray().ToList();
        Assert.Equal(before + 1, alignments.Count);
        var stored = alignments[^1].GetProperty("corners")[1];
        Assert.Equal(found[1][0].GetDouble() + 2, stored[0].GetDouble(), 6);
        Assert.Equal(found[1][1].GetDouble() - 0.1, stored[1].GetDouble(), 6);
        Assert.Equal("hand", alignments[^1].GetProperty("method").GetString()!.Split('-')[^1]);
    }

    [Fact]
    public async Task A_photograph_off_the_plane_opens_in_its_own_pixels()
    {
        await using var page = await studio.OpenAsync();
        await page.SettleAsync();
        await page.Page.Locator(".strip .thumb.loose", new() { HasText = "XSEC" }).First.ClickAsync();
        await page.SettleAsync("original");
        var stage = await page.StageAsync();
        await page.Page.Mouse.MoveAsync(stage.X + stage.Width / 2, stage.Y + stage.Height / 2);
        var layer = await page.LayerAsync(studio.Painting, "XSEC_S1_VIS", onPlane: false);
        // Up to one pixel either way: the middle of the window may lie on a pixel's boundary.
        var said = (await page.Page.Locator("output.place").InnerTextAsync()).Replace("pixel ", "", StringComparison.Ordinal).Split(", ")
            .Select(t => double.Parse(t, CultureInfo.InvariantCulture)).ToArray();
        Assert.InRange(said[0], layer.Number("width") / 2 - 2, layer.Number("width") / 2 + 2);
    }
}
