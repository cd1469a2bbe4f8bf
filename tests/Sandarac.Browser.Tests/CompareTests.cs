using Microsoft.Playwright;

namespace Sandarac.Browser.Tests;

/// <summary>What is on the screen really comes from A and from B, on the right sides. The measure is each layer shown alone in the same view.</summary>
public sealed class CompareTests(SpecimenStudio studio)
{
    [Fact, Trait("Speed", "slow")]
    public async Task Every_mode_shows_A_and_B_where_it_says()
    {
        await using var page = await studio.OpenAsync();
        var (a, b) = ((await page.LayerAsync(studio.Painting, "VIS_01")).Id(), (await page.LayerAsync(studio.Painting, "UVL_01")).Id());
        await page.SettleAsync("alone");
        // Enlarged, so that half a screen pixel aside is no other picture.
        var view = "&at=250,160&mm=0.2";
        Task<Screen> Show(string query, string? name = null) => ShowAsync(page, query + view, name);
        var ofA = await Show($"?a={a}");
        var ofB = await Show($"?a={b}");
        var stage = await page.StageAsync();
        var (cx, cy) = (stage.X + stage.Width / 2, stage.Y + stage.Height / 2);
        // Places where the two lights differ plainly, offsets from the middle of the view.
        var offsets = (from dx in Enumerable.Range(-12, 25) from dy in Enumerable.Range(-9, 19) select (X: dx * 20.0, Y: dy * 20.0))
            .Where(o => ofA.Difference(ofB, cx + o.X, cy + o.Y) > 30).ToList();
        Assert.True(offsets.Count > 150, $"{offsets.Count} places differ");

        var divide = await Show($"?a={a}&b={b}&mode=divide&edge=0.4", "divide");
        var edge = stage.X + 0.4 * stage.Width;
        AssertSides(divide, offsets.Where(o => Math.Abs(cx + o.X - edge) > 12), o => cx + o.X < edge, 0, 0);

        var loupe = await Show($"?a={a}&b={b}&mode=loupe&loupe=150", "loupe");
        AssertSides(loupe, offsets.Where(o => Math.Abs(Math.Sqrt(o.X * o.X + o.Y * o.Y) - 150) > 4), o => o.X * o.X + o.Y * o.Y > 150 * 150, 0, 0);

        var beside = await Show($"?a={a}&b={b}&mode=beside", "beside");
        var half = Math.Floor((stage.Width - 2) / 2);
        var near = offsets.Where(o => Math.Abs(o.X) < half / 2 - 20).ToList();
        AssertSides(beside, near, _ => true, stage.X + half / 2 - cx, 0);
        AssertSides(beside, near, _ => false, stage.X + half + 2 + (stage.Width - half - 2) / 2 - cx, 0);

        var fade = await Show($"?a={a}&b={b}&mode=fade&fade=0.25", "fade");
        foreach (var (x, y) in offsets.Select(o => (cx + o.X, cy + o.Y)))
        {
            var (p, q, seen) = (ofA.At(x, y), ofB.At(x, y), fade.At(x, y));
            Assert.InRange(seen.R, 0.75 * p.R + 0.25 * q.R - 2, 0.75 * p.R + 0.25 * q.R + 2);
            Assert.InRange(seen.G, 0.75 * p.G + 0.25 * q.G - 2, 0.75 * p.G + 0.25 * q.G + 2);
        }

        void AssertSides(Screen seen, IEnumerable<(double X, double Y)> places, Func<(double X, double Y), bool> isA, double dx, double dy)
        {
            var checkedPlaces = 0;
            foreach (var o in places)
            {
                var (own, other) = isA(o) ? (ofA, ofB) : (ofB, ofA);
                var there = seen.At(cx + o.X + dx, cy + o.Y + dy);
                // Panes of another width may lie half a screen pixel aside, so nearer to its own layer is asked, not equal.
                var (toOwn, toOther) = (Away(there, own.At(cx + o.X, cy + o.Y)), Away(there, other.At(cx + o.X, cy + o.Y)));
                Assert.True(toOwn * 2 < toOther, $"at {o}: {toOwn} from its own layer, {toOther} from the other");
                checkedPlaces++;
            }
            Assert.True(checkedPlaces > 40, $"only {checkedPlaces} places");
        }
    }

    [Fact]
    public async Task The_edge_is_moved_by_pointer_and_by_keys()
    {
        await using var page = await studio.OpenAsync("?mode=divide");
        await page.SettleAsync();
        var edge = page.Page.GetByRole(AriaRole.Slider, new() { Name = "Edge between A and B" });
        await edge.FocusAsync();
        await page.PressAsync("ArrowLeft", "ArrowLeft");
        await Assertions.Expect(edge).ToHaveAttributeAsync("aria-valuenow", "48");
        var (stage, box) = (await page.StageAsync(), (await edge.BoundingBoxAsync())!);
        await page.Page.Mouse.MoveAsync(box.X + box.Width / 2, box.Y + 200);
        await page.Page.Mouse.DownAsync();
        await page.Page.Mouse.MoveAsync(stage.X + stage.Width * 0.3f, box.Y + 200, new() { Steps = 5 });
        await page.Page.Mouse.UpAsync();
        await Assertions.Expect(edge).ToHaveAttributeAsync("aria-valuenow", "30");
    }

    [Fact]
    public async Task The_strip_and_the_number_keys_choose_layers_and_say_so_in_words()
    {
        await using var page = await studio.OpenAsync();
        await page.SettleAsync();
        var strip = page.Page.Locator(".strip .thumb:not(.loose)");
        await strip.Nth(2).ClickAsync();
        await Assertions.Expect(strip.Nth(2).Locator(".badge")).ToHaveTextAsync("A");
        await strip.Nth(1).ClickAsync(new() { Modifiers = [KeyboardModifier.Shift] });
        await Assertions.Expect(strip.Nth(1).Locator(".badge")).ToHaveTextAsync("B");
        await page.Page.Locator(".pane.top").FocusAsync();
        await page.PressAsync("1", "Shift+3");
        await Assertions.Expect(strip.Nth(0).Locator(".badge")).ToHaveTextAsync("A");
        await Assertions.Expect(strip.Nth(2).Locator(".badge")).ToHaveTextAsync("B");
    }

    [Fact]
    public async Task Infrared_false_colour_puts_infrared_in_red_red_in_green_green_in_blue()
    {
        await using var page = await studio.OpenAsync();
        var (visible, infrared) = (await page.LayerAsync(studio.Painting, "VIS_01"), await page.LayerAsync(studio.Painting, "IR_01"));
        var view = "&at=259,206&mm=0.8";
        var window = $"~r{infrared.Number("low").Text()}_{infrared.Number("high").Text()}";
        await using var ofColour = await studio.OpenAsync($"?a={visible.Id()}{view}");
        await using var ofGrey = await studio.OpenAsync($"?a={infrared.Id()}{view}");
        await using var ofBoth = await studio.OpenAsync($"?a={visible.Id()}~sir:{infrared.Id()}{window}{view}");
        await EaselPage.InTheEndAsync(async () =>
        {
            var (colour, grey, seen) = (await LookAsync(ofColour), await LookAsync(ofGrey), await LookAsync(ofBoth, "false-colour"));
            var stage = await ofBoth.StageAsync();
            for (var dx = -200; dx <= 200; dx += 25)
                for (var dy = -150; dy <= 150; dy += 25)
                {
                    var (x, y) = (stage.X + stage.Width / 2 + dx, stage.Y + stage.Height / 2 + dy);
                    AssertAlike(seen.At(x, y), (grey.At(x, y).R, colour.At(x, y).R, colour.At(x, y).G), 2, (dx, dy));
                }
        });
    }

    [Fact]
    public async Task Mirrored_shows_the_left_at_the_right()
    {
        await using var page = await studio.OpenAsync();
        var id = (await page.LayerAsync(studio.Painting, "VIS_01")).Id();
        // The painting's upright middle lies on the boundary between two screen columns, so mirrored columns pair up.
        await using var ofPlain = await studio.OpenAsync($"?a={id}&at=259,206&mm=0.8");
        await using var ofMirrored = await studio.OpenAsync($"?a={id}~m&at=259,206&mm=0.8");
        await EaselPage.InTheEndAsync(async () =>
        {
            var (plain, mirrored) = (await LookAsync(ofPlain, "plain"), await LookAsync(ofMirrored, "mirrored"));
            var stage = await ofPlain.StageAsync();
            var (middle, y0) = ((int)(stage.X + stage.Width / 2), stage.Y + stage.Height / 2);
            var differing = 0;
            for (var dx = 5; dx <= 300; dx += 7)
                for (var dy = -200; dy <= 200; dy += 50)
                {
                    AssertAlike(mirrored.At(middle - 1 - dx, y0 + dy), plain.At(middle + dx, y0 + dy), 6, (dx, dy));
                    if (plain.Difference(mirrored, middle + dx, y0 + dy) > 20) differing++;
                }
            Assert.True(differing > 30, "the picture is nearly symmetric, so this proves nothing");
        });
    }

    private static async Task<Screen> ShowAsync(EaselPage page, string query, string? name = null)
    {
        await page.Page.GotoAsync(new Uri(new Uri(page.Page.Url), query).ToString());
        return await LookAsync(page, name);
    }

    private static async Task<Screen> LookAsync(EaselPage page, string? name = null)
    {
        await page.Page.Mouse.MoveAsync(5, 5);
        return await page.SettleAsync(name);
    }

    private static void AssertAlike((int R, int G, int B) seen, (int R, int G, int B) expected, int within, (int X, int Y) at) =>
        Assert.True(Away(seen, expected) <= within, $"{seen} instead of {expected}, {at} from the middle");

    private static int Away((int R, int G, int B) p, (int R, int G, int B) q) =>
        Math.Max(Math.Abs(p.R - q.R), Math.Max(Math.Abs(p.G - q.G), Math.Abs(p.B - q.B)));
}
