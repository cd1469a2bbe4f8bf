namespace Sandarac.Browser.Tests;

/// <summary>The address bar reproduces what is on the screen.</summary>
public sealed class LinkTests(SpecimenStudio studio)
{
    [Fact, Trait("Speed", "slow")]
    public async Task A_link_restores_view_layers_mode_and_contrast()
    {
        string link;
        Screen before;
        await using (var page = await studio.OpenAsync())
        {
            await page.SettleAsync();
            await page.PressAsync("2", "Shift+1", "d", "[", "[", "+", ".", ".", ".", "ArrowRight", "ArrowDown", "i", "g");
            before = await page.SettleAsync();
            link = await page.LinkAsync();
        }
        Assert.Contains("mode=divide", link, StringComparison.Ordinal);
        Assert.Contains("turn=3", link, StringComparison.Ordinal);
        await using var again = await studio.OpenAsync(link);
        var after = await again.SettleAsync("link");
        Assert.Equal(link, await again.LinkAsync());
        var stage = await again.StageAsync();
        for (var x = stage.X + 10; x < stage.X + stage.Width - 10; x += 31)
            for (var y = stage.Y + 50; y < stage.Y + stage.Height - 60; y += 29)
                Assert.InRange(after.Difference(before, x, y), 0, 3);
    }
}
