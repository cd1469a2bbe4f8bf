using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using NetVips;

namespace Sandarac.Browser.Tests;

/// <summary>Rings on a photograph of end grain: measured along a line that is drawn on it, and their boundaries moved by hand. The wood is drawn by rule, 20 pixels to a millimetre.</summary>
public sealed partial class RingTests(SpecimenStudio studio)
{
    private const int Width = 1200, Height = 240, PixelsPerMm = 20;

    /// <summary>Where rings end, pixels: their widths go to and fro between 16 and 32.</summary>
    private static readonly double[] Ends = [.. Enumerable.Range(0, 50).Select(i => 24 * i + 10 + 4 * Math.Sin(i)).Where(e => e < Width)];

    [Fact]
    public async Task Rings_are_measured_along_a_line_that_is_drawn()
    {
        var painting = Examined("ENDGRAIN_A.tif");
        await using var page = await studio.OpenAsync(painting: painting);
        await page.SettleAsync();
        await page.Page.Locator(".strip .thumb.loose", new() { HasText = "ENDGRAIN" }).ClickAsync();
        await page.SettleAsync();
        await page.Page.GetByRole(AriaRole.Link, new() { Name = "Rings along a line" }).ClickAsync();
        await page.SettleAsync();
        var stage = await page.StageAsync();
        var (left, right, middle) = (stage.X + 60, stage.X + stage.Width - 160, stage.Y + stage.Height / 2 - 14);
        await page.Page.GetByRole(AriaRole.Button, new() { Name = "Draw a line" }).ClickAsync();
        await page.Page.Mouse.ClickAsync(left, middle);
        await page.Page.Mouse.ClickAsync(right, middle + 6);
        var drawn = await LineAsync(page);
        var pixel = (drawn[2] - drawn[0]) / (right - left);
        await DragAsync(page, right, middle + 6, 80, -4);
        await page.Page.Locator(".loupe").First.FocusAsync();
        await page.PressAsync("ArrowRight", "Shift+ArrowDown", "Alt+ArrowLeft");
        var moved = await LineAsync(page);
        Assert.Equal(drawn[0] + 0.9, moved[0], 0.02);
        Assert.Equal(drawn[1] + 10, moved[1], 0.02);
        // A pointer stands on whole pixels of the screen.
        Assert.Equal(drawn[2] + 80 * pixel, moved[2], 1.5 * pixel);
        Assert.Equal(drawn[3] - 4 * pixel, moved[3], 1.5 * pixel);
        await page.SettleAsync("ring-line");

        await page.Page.GetByRole(AriaRole.Link, new() { Name = "Rings along this line" }).ClickAsync();
        Assert.Equal(moved[2], double.Parse(await page.Page.Locator("#parameter-to-x").InputValueAsync(), CultureInfo.InvariantCulture), 0.01);
        await page.Page.GetByRole(AriaRole.Button, new() { Name = "Run this reading" }).ClickAsync();
        await page.Page.Locator(".runs").GetByRole(AriaRole.Link, new() { Name = "Make a series of these rings" }).ClickAsync(new() { Timeout = 60_000 });
        await page.Page.GetByLabel("Name of the series").FillAsync("BOARD1");
        await page.Page.GetByRole(AriaRole.Button, new() { Name = "Make a series of these rings" }).ClickAsync();
        await Assertions.Expect(page.Page.Locator("svg.ring-strip g.mark").First).ToBeVisibleAsync();
        await page.Page.ScreenshotAsync(new() { Path = Path.Combine(SpecimenStudio.Artifacts, "ring-boundaries.png") });

        // The line all but keeps to a row, so the rings are as wide along it as they were drawn.
        var expected = Ends.Where(e => e > moved[0] + 5 && e < moved[2] - 5).ToArray();
        var series = await SeriesAsync(page, painting);
        Assert.Equal(expected.Length - 1, series.Widths.Length);
        Assert.All(series.Widths.Zip(expected.Zip(expected.Skip(1))), w => Assert.Equal((w.Second.Second - w.Second.First) / PixelsPerMm, w.First, 0.02));
    }

    [Fact]
    public async Task A_ring_follows_its_boundary_that_pointer_and_keys_move()
    {
        var painting = Examined("ENDGRAIN_B.tif");
        await using var page = await studio.OpenAsync(page: "panel", painting: painting);
        await MeasureAsync(page, painting);
        var before = await SeriesAsync(page, painting);
        await page.Page.GotoAsync($"{page.Page.Url}?series={before.Id}");
        var mark = page.Page.Locator("g.mark[data-number='5']");
        await mark.ScrollIntoViewIfNeededAsync();
        var box = (await mark.BoundingBoxAsync())!;
        await DragAsync(page, box.X + box.Width / 2, box.Y + box.Height / 2, 6, 0);
        await page.Page.Locator("g.mark[data-number='9']").FocusAsync();
        await page.PressAsync("ArrowRight", "ArrowRight", "ArrowLeft", "Shift+ArrowLeft");
        await page.Page.Locator("g.mark[data-number='12']").FocusAsync();
        await page.PressAsync("Delete");
        Assert.Equal("5 9 12", await page.Page.Locator("#entry-out").InputValueAsync());
        await page.Page.GetByRole(AriaRole.Button, new() { Name = "Correct the boundaries" }).ClickAsync();
        await Assertions.Expect(page.Page.Locator("#entry-out")).ToHaveValueAsync("");

        // 6 pixels of the screen are 0.3 mm; an arrow key is 0.05 mm, with Shift ten times that.
        var after = await SeriesAsync(page, painting);
        Assert.Equal(before.Boundaries[4] + 6.0 / PixelsPerMm, after.Boundaries[4], 0.002);
        Assert.Equal(before.Boundaries[8] + 0.05 - 0.5, after.Boundaries[8], 0.002);
        Assert.Equal(before.Boundaries.Length - 1, after.Boundaries.Length);
        Assert.Equal(before.Widths[3] + 0.3, after.Widths[3], 0.01);
        Assert.Equal(before.Widths[4] - 0.3, after.Widths[4], 0.01);
        Assert.Equal(before.Widths[10] + before.Widths[11], after.Widths[10], 0.01);
        Assert.Equal(before.Widths[1], after.Widths[1], 1e-9);
    }

    [Fact]
    public async Task The_line_can_be_drawn_by_everyone()
    {
        var painting = Examined("ENDGRAIN_C.tif");
        // axe is a script put into the page, which the page's own policy forbids.
        await using var page = await studio.OpenAsync(painting: painting, bypassPolicy: true);
        var photograph = (await page.LayerAsync(painting, "ENDGRAIN_C", onPlane: false)).Photograph();
        await page.Page.GotoAsync(page.Page.Url.Split('?')[0] + $"?line={photograph}&reading=ring-widths&input-wood={photograph}");
        await page.SettleAsync();
        var found = await page.Page.RunAxe();
        Assert.Empty(found.Violations.Where(v => v.Impact is "serious" or "critical").Select(v => $"{v.Id}: {v.Help}: {string.Join("; ", v.Nodes.Select(n => n.Html))}"));
        // A line along a ruler tells the scale: it goes to the form with all else.
        await page.Page.GetByLabel("This is really").FillAsync("48");
        await page.Page.GetByRole(AriaRole.Button, new() { Name = "Take it as the scale" }).ClickAsync();
        await Assertions.Expect(page.Page.Locator(".really")).ToContainTextAsync("0.05000 mm a pixel.");
        await page.Page.GetByRole(AriaRole.Link, new() { Name = "Rings along this line" }).ClickAsync();
        await Assertions.Expect(page.Page.Locator("#parameter-mm-per-pixel")).ToHaveValueAsync("0.05");
        // And back, with what was entered there.
        await page.Page.Locator("#parameter-narrowest").FillAsync("0.4");
        await page.Page.GetByRole(AriaRole.Button, new() { Name = "Draw the line on the photograph" }).ClickAsync();
        await page.SettleAsync();
        Assert.Contains("parameter-narrowest=0.4", page.Page.Url, StringComparison.Ordinal);
        double[] line = [0.1 * Width, Height / 2.0, 0.9 * Width, Height / 2.0];
        Assert.Equal(line, await LineAsync(page));
    }

    private Guid Examined(string name)
    {
        Draw(Path.Combine(studio.Aside, name));
        File.WriteAllText(Path.Combine(studio.Aside, "photographs.csv"), $"file,light,subject\n{name},VIS,Detail\n");
        return studio.ExamineAlone("VIS_01.tif", name, "photographs.csv");
    }

    /// <summary>Light earlywood that darkens towards the ring's end, a little rough so that no two lanes are the same.</summary>
    private static void Draw(string path)
    {
        var random = new Random(5);
        var row = Enumerable.Range(0, Width).Select(x => Enumerable.Range(0, 16).Average(k => Tone(x + (k + 0.5) / 16))).ToArray();
        byte[] pixels = [.. Enumerable.Range(0, Width * Height).Select(i => (byte)(255 * (0.3 * row[Math.Max(0, i % Width - 1)] + 0.4 * row[i % Width] + 0.3 * row[Math.Min(Width - 1, i % Width + 1)]) + 8 * random.NextDouble()))];
        using var image = Image.NewFromMemory(pixels, Width, Height, 1, Enums.BandFormat.Uchar);
        image.Tiffsave(path, xres: PixelsPerMm, yres: PixelsPerMm);
    }

    private static double Tone(double x)
    {
        var (start, end) = (Ends.LastOrDefault(e => e <= x, Ends[0] - 24), Ends.FirstOrDefault(e => e > x, Ends[^1] + 24));
        return 0.65 - 0.35 * Math.Pow((x - start) / (end - start), 2);
    }

    /// <summary>Measures along the middle and makes a series of it, past the page.</summary>
    private static async Task MeasureAsync(EaselPage page, Guid painting)
    {
        var photograph = (await page.AskAsync($"/api/paintings/{painting}")).GetProperty("layers").EnumerateArray().First(l => l.GetProperty("label").GetString()!.StartsWith("ENDGRAIN", StringComparison.Ordinal)).Photograph();
        await page.ChangeAsync($"/api/paintings/{painting}/runs", new { reading = "ring-widths", parameters = new { }, inputs = new { wood = new[] { photograph } } });
        JsonElement run = default;
        await EaselPage.InTheEndAsync(async () =>
        {
            run = (await page.AskAsync($"/api/paintings/{painting}/runs?reading=ring-widths")).EnumerateArray().First();
            Assert.Equal("done", run.GetProperty("state").GetString());
        });
        await page.ChangeAsync($"/api/paintings/{painting}/ring-series/take-over", new { runId = run.Id(), name = "BOARD2", board = "" });
    }

    private static async Task<(string Id, double[] Boundaries, double[] Widths)> SeriesAsync(EaselPage page, Guid painting)
    {
        var series = (await page.AskAsync($"/api/paintings/{painting}/ring-series")).EnumerateArray().Single();
        double[] Numbers(string name) => [.. series.GetProperty("content").GetProperty(name).EnumerateArray().Select(v => v.GetDouble())];
        return (series.Id(), Numbers("boundariesMm"), Numbers("widthsMm"));
    }

    /// <summary>Ends of the line, pixels of the photograph, as the address bar has them.</summary>
    private static async Task<double[]> LineAsync(EaselPage page) => [.. LineEnd().Matches(await page.LinkAsync()).Select(m => double.Parse(m.Groups[1].Value, CultureInfo.InvariantCulture))];

    private static async Task DragAsync(EaselPage page, float x, float y, float byX, float byY)
    {
        await page.Page.Mouse.MoveAsync(x, y);
        await page.Page.Mouse.DownAsync();
        await page.Page.Mouse.MoveAsync(x + byX / 2, y + byY / 2, new() { Steps = 3 });
        await page.Page.Mouse.MoveAsync(x + byX, y + byY, new() { Steps = 3 });
        await page.Page.Mouse.UpAsync();
    }

    [GeneratedRegex(@"parameter-(?:from|to)-[xy]=([0-9.]+)")]
    private static partial Regex LineEnd();
}
