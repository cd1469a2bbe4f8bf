using System.Globalization;
using System.Text.Json;
using Microsoft.Playwright;
using Sandarac.Imaging.Formats;

namespace Sandarac.Browser.Tests;

/// <summary>The read-out and "What is here" tell the truth about the place under the pointer.</summary>
public sealed class HereTests(SpecimenStudio studio)
{
    [Theory]
    [InlineData(-180, 90)]
    [InlineData(33, -120)]
    [InlineData(210, 141)]
    public async Task Values_under_the_pointer_are_the_files_own(int dx, int dy)
    {
        const double mm = 0.8;
        await using var page = await studio.OpenAsync("?at=259,206&mm=0.8");
        await page.SettleAsync();
        var stage = await page.StageAsync();
        var (px, py) = (MathF.Round(stage.X + stage.Width / 2 + dx), MathF.Round(stage.Y + stage.Height / 2 + dy));
        var answer = await page.Page.RunAndWaitForResponseAsync(() => page.Page.Mouse.MoveAsync(px, py), r => r.Url.Contains("/here?", StringComparison.Ordinal));
        var here = JsonDocument.Parse(await answer.TextAsync()).RootElement;

        // Where the pointer is follows from the link alone: its middle, and millimetres a screen pixel.
        var (x, y) = (259 + (px - (stage.X + stage.Width / 2)) * mm, 206 + (py - (stage.Y + stage.Height / 2)) * mm);
        Assert.Equal(x, here.GetProperty("x").GetDouble(), 3);
        Assert.Equal(y, here.GetProperty("y").GetDouble(), 3);
        var words = string.Create(CultureInfo.InvariantCulture, $"{x:0.0} mm from left, {412 - y:0.0} from bottom");
        await Assertions.Expect(page.Page.Locator(".stage output.place")).ToHaveTextAsync(words);

        var layers = here.GetProperty("layers").EnumerateArray().ToList();
        var compared = 0;
        foreach (var name in new[] { "VIS_01", "UVL_01", "IR_01" })
        {
            var layer = layers.Single(l => l.GetProperty("label").GetString() == name);
            var (column, row) = ((int)layer.GetProperty("pixel")[0].GetDouble(), (int)layer.GetProperty("pixel")[1].GetDouble());
            using var file = ImageFile.Open(Path.Combine(studio.Photographs, name + ".tif"));
            var own = file.ReadWindow(column, row, 1, 1).Select(p => p[0, 0].ToString("0", CultureInfo.InvariantCulture)).ToList();
            var shown = await page.Page.Locator(".here dl dt", new() { HasText = name }).Locator("xpath=following-sibling::dd[1]").Locator(".figure").AllInnerTextsAsync();
            Assert.Equal(own, [.. shown.Select(t => t.Split([' ', '\n'], StringSplitOptions.RemoveEmptyEntries).Last())]);
            compared += own.Count;
        }
        Assert.True(compared >= 7, $"{compared} values");
    }

    [Fact]
    public async Task A_click_keeps_the_place_until_Escape()
    {
        await using var page = await studio.OpenAsync("?at=259,206&mm=0.8");
        await page.SettleAsync();
        var stage = await page.StageAsync();
        // Away from the places where other tests draw zones: a click on one would select it.
        await page.Page.Mouse.ClickAsync(stage.X + stage.Width / 2 + 250, stage.Y + stage.Height / 2 + 150);
        await Assertions.Expect(page.Page.Locator(".here .where")).ToContainTextAsync("kept");
        var kept = await page.Page.Locator(".here .where").InnerTextAsync();
        await page.Page.Mouse.MoveAsync(stage.X + 500, stage.Y + 380);
        Assert.Equal(kept, await page.Page.Locator(".here .where").InnerTextAsync());
        await page.PressAsync("Escape");
        await Assertions.Expect(page.Page.Locator(".here .where")).Not.ToContainTextAsync("kept");
    }
}
