namespace Sandarac.Browser.Tests;

/// <summary>The contrast window acts on the stored 16-bit values: screen level = 255 (value - black) / (white - black), clipped.</summary>
public sealed class ContrastTests(SpecimenStudio studio)
{
    /// <summary>Screen pixels a pixel of the layer is enlarged to.</summary>
    private const int Enlarged = 16;

    [Theory]
    [InlineData(40, 60)]
    [InlineData(300, 200)]
    [InlineData(500, 500)]
    public async Task The_window_changes_the_screen_as_computed(int i, int j)
    {
        await using var page = await studio.OpenAsync();
        var layer = await page.LayerAsync(studio.Painting, "VIS_01");
        var tile = await page.TileAsync(layer, 0, 0);
        var size = layer.Number("mmPerPixel");
        var box = layer.GetProperty("extentMm");
        var (x, y) = (box[0].GetDouble() + (i + 0.5) * size, box[1].GetDouble() + (j + 0.5) * size);
        await page.Page.GotoAsync(new Uri(page.Page.Url).GetLeftPart(UriPartial.Path)
            + $"?a={layer.Id()}&at={x.Text()},{y.Text()}&mm={(size / Enlarged).Text()}");
        await AssertLevelsAsync(page, tile, i, j, 0, layer.Number("fullScale"));

        var (low, high) = (2000.0, 21000.0);
        await page.PressAsync("c");
        await FillAsync("low", low);
        await FillAsync("high", high);
        await page.PressAsync("Escape");
        await AssertLevelsAsync(page, tile, i, j, low, high);

        async Task FillAsync(string key, double value)
        {
            var field = page.Page.Locator($".contrast input[type=number][data-key={key}]");
            await field.FillAsync(value.Text());
            await field.PressAsync("Tab");
        }
    }

    [Fact]
    public async Task The_panel_says_the_window_in_the_unit_of_the_layer()
    {
        await using var page = await studio.OpenAsync();
        await page.SettleAsync();
        await page.PressAsync("c");
        var panel = page.Page.Locator(".contrast");
        var layer = await page.LayerAsync(studio.Painting, "VIS_01");
        Assert.Contains($"Black at, {layer.GetProperty("unit").GetString()}", await panel.InnerTextAsync(), StringComparison.Ordinal);
        Assert.Equal(layer.Number("fullScale"), double.Parse(await panel.Locator("input[type=number][data-key=high]").InputValueAsync(), null));
        await page.SettleAsync("contrast");
    }

    private static async Task AssertLevelsAsync(EaselPage page, ushort[] tile, int i, int j, double low, double high)
    {
        var screen = await page.SettleAsync();
        var stage = await page.StageAsync();
        var (cx, cy) = (stage.X + stage.Width / 2.0, stage.Y + stage.Height / 2.0);
        // The middle of the view lies on a screen pixel's boundary or centre: how far the sampled centre is from the layer's, in its pixels.
        var (dx, dy) = ((Math.Floor(cx) + 0.5 - cx) / Enlarged, (Math.Floor(cy) + 0.5 - cy) / Enlarged);
        var seen = screen.At(cx, cy);
        double[] expected = [.. Enumerable.Range(0, 3).Select(band => Level(Bilinear(tile, band, i, j, dx, dy), low, high))];
        Assert.InRange(seen.R, expected[0] - 1.5, expected[0] + 1.5);
        Assert.InRange(seen.G, expected[1] - 1.5, expected[1] + 1.5);
        Assert.InRange(seen.B, expected[2] - 1.5, expected[2] + 1.5);
    }

    private static double Level(double value, double low, double high) => 255 * Math.Clamp((value - low) / (high - low), 0, 1);

    private static double Bilinear(ushort[] tile, int band, int i, int j, double dx, double dy)
    {
        double At(int x, int y) => tile[(y * 512 + x) * 3 + band];
        return (1 - dx) * (1 - dy) * At(i, j) + dx * (1 - dy) * At(i + 1, j) + (1 - dx) * dy * At(i, j + 1) + dx * dy * At(i + 1, j + 1);
    }
}
