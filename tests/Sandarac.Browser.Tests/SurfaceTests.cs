using System.Globalization;
using System.Runtime.InteropServices;
using System.Text.Json;
using System.Text.RegularExpressions;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;

namespace Sandarac.Browser.Tests;

/// <summary>The surface is measured from the Easel, lit by a lamp that is moved by hand, and read along lines.</summary>
public sealed class SurfaceTests(SpecimenStudio studio)
{
    [Fact, Trait("Speed", "slow")]
    public async Task A_surface_is_measured_lit_by_hand_and_read_along_a_line()
    {
        var painting = studio.ExamineAlone(["VIS_01.tif", .. SpecimenStudio.Raking]);
        await using (var page = await studio.OpenAsync("?at=259,206&mm=0.8", painting: painting))
        {
            await page.SettleAsync();
            await page.PressAsync("q");
            await Assertions.Expect(page.Page.Locator(".panel.relight")).ToContainTextAsync("from 3 photographs in raking light, each with its even board");
            await page.Page.GetByRole(AriaRole.Button, new() { Name = "Measure the surface" }).ClickAsync();
            await Assertions.Expect(page.Page.Locator(".notices")).ToContainTextAsync("The surface is measured", new() { Timeout = 90_000 });
            await Assertions.Expect(page.Page.Locator(".label.a")).ToContainTextAsync("Measured surface, lit from the upper left");
            await Assertions.Expect(page.Page.Locator(".panel.relight")).ToContainTextAsync(new Regex("Relief, version 1, of .*; from 3 photographs"));
            await Assertions.Expect(page.Page.Locator(".panel.relight")).ToContainTextAsync("Height is relative");
            await LampAsync(page);
            await ShadeAsync(painting, await page.LayerAsync(painting, "Surface normals"), 400, 135);
        }
        await ProfileAsync(painting);
        await AccessAsync(painting);
    }

    /// <summary>The lamp is moved by drag, keys and numbers, and the picture and the link follow.</summary>
    private static async Task LampAsync(EaselPage page)
    {
        var before = await page.SettleAsync("relight");
        var dial = (await page.Page.Locator(".dial").BoundingBoxAsync())!;
        var (x, y) = (dial.X + dial.Width / 2, dial.Y + dial.Height / 2);
        await page.Page.Mouse.MoveAsync(x - 30, y - 30);
        await page.Page.Mouse.DownAsync();
        await page.Page.Mouse.MoveAsync(x, y - 30, new() { Steps = 2 });
        await page.Page.Mouse.MoveAsync(x + 44, y, new() { Steps = 2 });
        await page.Page.Mouse.UpAsync();
        await Assertions.Expect(page.Page.Locator(".dial")).ToHaveAttributeAsync("aria-valuetext", new Regex("^from the right, azimuth 90"));
        var after = await page.SettleAsync();
        Assert.True(Differing(before, after, await page.StageAsync()) > 100, "the surface is not lit from elsewhere");
        await page.PressAsync("ArrowRight", "ArrowUp");
        await Assertions.Expect(page.Page.GetByLabel("Azimuth")).ToHaveValueAsync("92");
        await page.Page.GetByLabel("Elevation").FillAsync("33");
        await page.Page.GetByLabel("Elevation").PressAsync("Enter");
        Assert.Matches("relight=92_33_4_0_shade_", await page.LinkAsync());
        await page.Page.GetByRole(AriaRole.Button, new() { Name = "Over A" }).ClickAsync();
        await Assertions.Expect(page.Page.Locator(".label.a")).ToContainTextAsync("VIS_01, with the light and shade of its surface");
        var over = await page.SettleAsync("relight-over");
        Assert.True(Differing(after, over, await page.StageAsync()) > 1000, "the photograph is not seen");
        await page.PressAsync("q");
        await Assertions.Expect(page.Page.Locator(".panel.relight")).ToBeHiddenAsync();
    }

    /// <summary>What the screen shows is Lambert's shade of the normals that the server has, in full resolution.</summary>
    private async Task ShadeAsync(Guid painting, JsonElement normals, int column, int row)
    {
        const double elevation = 20, times = 4;
        var (mm, sin, cos) = (normals.Number("mmPerPixel"), Math.Sin(elevation * Math.PI / 180), Math.Cos(elevation * Math.PI / 180));
        await using var page = await studio.OpenAsync(FormattableString.Invariant($"?at={(column + 0.5) * mm},{(row + 0.5) * mm}&mm={mm / 8}&relight=315_{elevation}_{times}_0_shade"), painting: painting);
        await page.SettleAsync();
        // Candidates would lie over it.
        await page.PressAsync("v");
        var (screen, stage) = (await page.SettleAsync(), await page.StageAsync());
        using var client = new HttpClient { BaseAddress = page.Server };
        var tile = MemoryMarshal.Cast<byte, float>(await client.GetByteArrayAsync($"/api/layers/{normals.Id()}/tiles/0/0/0", TestContext.Current.CancellationToken)).ToArray();
        var (span, compared) = (0.0, 0);
        for (var dx = -20; dx <= 20; dx += 5)
        {
            double nx = tile[2 * (row * 512 + column + dx)], ny = tile[2 * (row * 512 + column + dx) + 1];
            var nz = Math.Sqrt(1 - nx * nx - ny * ny);
            var light = (-Math.Sqrt(0.5) * cos * times * (nx + ny) + nz * sin) / Math.Sqrt(times * times * (nx * nx + ny * ny) + nz * nz) / sin;
            var expected = 255 * 0.5 * Math.Pow(Math.Max(0, light), 1 / 2.2);
            var (r, g, b) = screen.At(stage.X + stage.Width / 2 + 8 * dx, stage.Y + stage.Height / 2);
            Assert.Equal((r, r), (g, b));
            // With three lamps a place in shadow is not known: one of the hatch's two greys stands there.
            if (double.IsNaN(nx)) Assert.InRange(r, 0.42 * 255 - 2, 0.58 * 255 + 2);
            else Assert.InRange(r, expected - 6, expected + 6);
            if (double.IsNaN(nx)) continue;
            compared++;
            span = Math.Max(span, Math.Abs(expected - 127.5));
        }
        Assert.True(compared >= 4 && span > 15, "the places are too level to tell anything");
    }

    /// <summary>A line drawn by keys alone is read, saved as the server reads it, and followed as a pull.</summary>
    private async Task ProfileAsync(Guid painting)
    {
        await using var page = await studio.OpenAsync("?at=259,120&mm=0.4", painting: painting);
        await page.SettleAsync();
        await page.Page.Locator(".pane.top").FocusAsync();
        await page.PressAsync("a", "Space", "ArrowRight", "ArrowRight", "Space", "Enter");
        await Assertions.Expect(page.Page.Locator(".summary")).ToContainTextAsync("over 48.0 mm");
        await page.Page.Locator(".plot").FocusAsync();
        await page.PressAsync("End");
        await Assertions.Expect(page.Page.Locator(".readout")).ToHaveTextAsync(new Regex(@"^48\.00 mm: -?[0-9.]+ µm$"));
        await page.SettleAsync("profile");
        var download = await page.Page.RunAndWaitForDownloadAsync(() => page.Page.GetByRole(AriaRole.Button, new() { Name = "Save as table" }).ClickAsync());
        var rows = (await File.ReadAllLinesAsync((await download.PathAsync())!, TestContext.Current.CancellationToken)).Skip(1).Select(r => r.Split(',')).ToList();
        var height = await page.LayerAsync(painting, "Height");
        var read = await page.AskAsync($"/api/layers/{height.Id()}/profile?line=259,120,307,120&breadth=0.5");
        Assert.Equal(read.GetProperty("values").GetArrayLength(), rows.Count);
        Assert.Equal(read.GetProperty("values")[rows.Count / 2].GetDouble(), double.Parse(rows[rows.Count / 2][3], CultureInfo.InvariantCulture), 1e-3);
        await page.Page.GetByLabel("Averaged over").FillAsync("2");
        await page.Page.GetByLabel("Averaged over").PressAsync("Enter");
        Assert.Contains("profile=2_259_120_307_120", await page.LinkAsync(), StringComparison.Ordinal);
        await page.Page.GetByRole(AriaRole.Button, new() { Name = "Measure this pull" }).ClickAsync();
        await Assertions.Expect(page.Page.Locator(".told")).ToContainTextAsync("Stops of the hand", new() { Timeout = 60_000 });
    }

    private async Task AccessAsync(Guid painting)
    {
        // axe is a script put into the page, which the page's own policy forbids.
        await using var page = await studio.OpenAsync("?at=259,120&mm=0.4&relight=315_20_4_0_shade&profile=2_259_120_307_120", painting: painting, bypassPolicy: true);
        await Assertions.Expect(page.Page.Locator(".summary")).ToContainTextAsync("Peak to valley");
        await Assertions.Expect(page.Page.Locator(".dial")).ToBeVisibleAsync();
        var found = await page.Page.RunAxe();
        Assert.Empty(found.Violations.Where(v => v.Impact is "serious" or "critical").Select(v => $"{v.Id}: {v.Help}: {string.Join("; ", v.Nodes.Select(n => n.Html))}"));
    }

    private static int Differing(Screen a, Screen b, LocatorBoundingBoxResult stage)
    {
        var count = 0;
        for (var x = stage.X + 325; x < stage.X + stage.Width - 5; x += 5)
            for (var y = stage.Y + 5; y < stage.Y + stage.Height - 5; y += 5)
                if (a.Difference(b, x, y) > 15) count++;
        return count;
    }
}
