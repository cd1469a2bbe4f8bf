using System.IO.Compression;
using System.Text.RegularExpressions;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;

namespace Sandarac.Browser.Tests;

/// <summary>A walk is written on the Easel, presented by keys, and exported as a folder that opens as a file and from any server.</summary>
public sealed class WalkTests(SpecimenStudio studio)
{
    private const string Hostile = "<b>Not bold</b> & <img src=x onerror=alert(1)>";
    private const string Hebrew = "הציור נוקה בשנה שעברה";

    private readonly CancellationToken _stop = TestContext.Current.CancellationToken;

    [Fact, Trait("Speed", "slow")]
    public async Task A_walk_is_written_presented_and_exported()
    {
        var painting = studio.ExamineAlone("VIS_01.tif", "UVL_01.tif");
        var walk = await WriteAsync(painting);
        await PresentAsync(painting, walk);
        var folder = Directory.CreateTempSubdirectory("sandarac-walk-test-").FullName;
        try
        {
            await ExportAsync(painting, folder);
            var home = Directory.GetDirectories(folder).Single();
            await ReadAsync(new Uri(Path.Combine(home, "index.html")), 1280, 800);
            using var server = new FolderServer(home);
            await ReadAsync(new Uri(server.Address, "index.html"), 390, 844);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    /// <summary>Views are added, named, put in order and kept by keys alone; the link brings the walk back.</summary>
    private async Task<Guid> WriteAsync(Guid painting)
    {
        await using var page = await studio.OpenAsync("?at=259,206&mm=0.6", painting: painting);
        await page.SettleAsync();
        await page.PressAsync("Shift+W");
        await page.Page.GetByRole(AriaRole.Button, new() { Name = "New walk" }).PressAsync("Enter");
        await page.Page.GetByLabel("Called").FillAsync("Under the varnish");
        await Assertions.Expect(page.Page.Locator(".walk")).ToContainTextAsync("No views yet");
        await AddAsync(page, "The whole", Hostile);
        await page.PressAsync("d", "+", "+");
        await AddAsync(page, "Closer", Hebrew);
        await Assertions.Expect(page.Page.Locator(".walk ol li")).ToHaveTextAsync(["The whole", "Closer"]);
        await page.Page.Locator(".walk ol button").Last.FocusAsync();
        await page.PressAsync("Alt+ArrowUp");
        await Assertions.Expect(page.Page.Locator(".walk ol li")).ToHaveTextAsync(["Closer", "The whole"]);
        await page.PressAsync("Alt+ArrowDown");
        await Assertions.Expect(page.Page.Locator(".walk")).ToContainTextAsync("Kept.");
        await page.SettleAsync("walk-panel");
        var kept = (await page.AskAsync($"/api/paintings/{painting}/walks"))[0];
        var steps = kept.GetProperty("content").GetProperty("steps");
        Assert.Equal(("The whole", Hostile, "alone"), (steps[0].GetProperty("title").GetString(), steps[0].GetProperty("caption").GetString(), steps[0].GetProperty("compare").GetString()));
        Assert.Equal(("Closer", Hebrew, "divide"), (steps[1].GetProperty("title").GetString(), steps[1].GetProperty("caption").GetString(), steps[1].GetProperty("compare").GetString()));
        Assert.Equal(0.5, steps[1].Number("widthMm") / steps[0].Number("widthMm"), 3);
        Assert.Contains($"walk={kept.Id()}", await page.LinkAsync(), StringComparison.Ordinal);
        await page.Page.ReloadAsync();
        await page.SettleAsync();
        await page.Page.GetByRole(AriaRole.Button, new() { Name = "The whole" }).ClickAsync();
        await Assertions.Expect(page.Page.Locator(".stage")).ToHaveAttributeAsync("data-mode", "alone");
        await page.Page.Locator(".pane.top").FocusAsync();
        await page.PressAsync(">");
        await Assertions.Expect(page.Page.Locator(".stage")).ToHaveAttributeAsync("data-mode", "divide");
        await Assertions.Expect(page.Page.GetByLabel("Caption", new() { Exact = true })).ToHaveValueAsync(Hebrew);
        return Guid.Parse(kept.Id());
    }

    private static async Task AddAsync(EaselPage page, string title, string caption)
    {
        await page.SettleAsync();
        await page.Page.Locator(".pane.top").FocusAsync();
        await page.PressAsync("Shift+A");
        await page.Page.GetByLabel("Title", new() { Exact = true }).FillAsync(title);
        await page.Page.GetByLabel("Caption", new() { Exact = true }).FillAsync(caption);
        await page.Page.Locator(".pane.top").FocusAsync();
    }

    /// <summary>Keys go through it; with less movement wanted the next view stands there at once; the pointer goes when nobody moves it.</summary>
    private async Task PresentAsync(Guid painting, Guid walk)
    {
        await using (var page = await studio.OpenAsync("", $"walks/{walk}/present", painting: painting, reducedMotion: true))
        {
            await Assertions.Expect(page.Page.Locator(".presented")).ToHaveTextAsync($"The whole{Hostile}");
            Assert.Equal(0, await page.Page.Locator(".presented img, .presented b").CountAsync());
            await Assertions.Expect(page.Page.Locator(".label")).ToHaveTextAsync("VIS, visible");
            var scale = await page.Page.Locator(".scale .length").TextContentAsync();
            foreach (var (key, title) in new[] { ("ArrowRight", "Closer"), ("ArrowLeft", "The whole"), ("PageDown", "Closer"), ("PageUp", "The whole"), ("Space", "Closer"), ("Home", "The whole"), ("End", "Closer"), ("ArrowRight", "Closer") })
            {
                await page.PressAsync(key);
                await Assertions.Expect(page.Page.Locator(".presented h2")).ToHaveTextAsync(title);
            }
            await Assertions.Expect(page.Page.Locator(".label")).ToHaveTextAsync("VIS, visible (left of the edge), UVL, ultraviolet luminescence (right of it)");
            await Assertions.Expect(page.Page.Locator(".scale .length")).Not.ToHaveTextAsync(scale!);
            Assert.Equal("rtl", await page.Page.Locator(".presented p").EvaluateAsync<string>("e => getComputedStyle(e).direction"));
            // Capitals of a two-hundredth of 3 m on a screen 1.2 m wide: 1.25 % of its width, and a capital of this face is 0.67 of its size.
            Assert.InRange(await page.Page.Locator(".presented").EvaluateAsync<double>("e => 0.67 * parseFloat(getComputedStyle(e).fontSize) / innerWidth"), 0.0120, 0.03);
            await Assertions.Expect(page.Page.Locator("#walk.idle")).ToBeAttachedAsync();
            await page.Page.Mouse.MoveAsync(40, 40);
            await Assertions.Expect(page.Page.Locator("#walk:not(.idle)")).ToBeAttachedAsync();
            await page.Page.ScreenshotAsync(new() { Path = Path.Combine(SpecimenStudio.Artifacts, "walk-presented.png") });
            await page.PressAsync("Escape");
            await page.Page.WaitForURLAsync(new Regex("/easel"));
        }
        await NoIssueAsync(await studio.OpenAsync("", $"walks/{walk}/present", painting: painting, bypassPolicy: true));
        await NoIssueAsync(await studio.OpenAsync($"?walk={walk}", painting: painting, bypassPolicy: true));
    }

    private async Task ExportAsync(Guid painting, string folder)
    {
        await using var page = await studio.OpenAsync("?walk=", painting: painting);
        await page.SettleAsync();
        await page.Page.Locator(".walk summary", new() { HasText = "Export" }).ClickAsync();
        await page.Page.GetByLabel("Where it will be served").FillAsync("not an address");
        await page.Page.GetByRole(AriaRole.Button, new() { Name = "Make the folder" }).ClickAsync();
        await Assertions.Expect(page.Page.Locator(".export")).ToContainTextAsync("is not the address of a folder on the web");
        await page.Page.GetByLabel("Where it will be served").FillAsync("https://museum.example/ferry");
        await page.Page.GetByLabel("Who is to be named").FillAsync("The studio");
        await page.Page.GetByRole(AriaRole.Button, new() { Name = "Make the folder" }).ClickAsync();
        var download = await page.Page.RunAndWaitForDownloadAsync(() => page.Page.GetByRole(AriaRole.Link, new() { Name = "Download" }).ClickAsync(new() { Timeout = 60_000 }));
        Assert.Equal("under-the-varnish.zip", download.SuggestedFilename);
        await ZipFile.ExtractToDirectoryAsync((await download.PathAsync())!, folder, _stop);
        // The refused address was a complaint on purpose.
        page.Complaints.Clear();
    }

    /// <summary>The folder is read with keys, at any width; it asks nothing of anyone else, and shows the painting where it lies.</summary>
    private async Task ReadAsync(Uri address, int width, int height)
    {
        await using (var page = await studio.OpenElsewhereAsync(address, width, height))
        {
            List<string> foreign = [];
            page.Page.Request += (_, request) => { if (!request.Url.StartsWith(new Uri(address, ".").ToString(), StringComparison.Ordinal)) foreign.Add(request.Url); };
            await page.Page.ReloadAsync();
            await Assertions.Expect(page.Page.Locator(".caption")).ToHaveTextAsync($"The whole{Hostile}");
            await page.PressAsync("PageDown");
            await Assertions.Expect(page.Page.Locator(".caption h2")).ToHaveTextAsync("Closer");
            await Assertions.Expect(page.Page.Locator("#walk-label")).ToHaveTextAsync("VIS, visible (left of the edge), UVL, ultraviolet luminescence (right of it)");
            await Assertions.Expect(page.Page.GetByLabel("Place of the edge")).ToHaveValueAsync("0.5");
            await page.Page.GetByRole(AriaRole.Button, new() { Name = "Fade", Exact = true }).ClickAsync();
            await Assertions.Expect(page.Page.GetByLabel("How strongly the second is seen")).ToBeVisibleAsync();
            await page.Page.GetByRole(AriaRole.Button, new() { Name = "Alone", Exact = true }).ClickAsync();
            await page.Page.GetByLabel("Picture", new() { Exact = true }).Last.SelectOptionAsync("uvl");
            await Assertions.Expect(page.Page.Locator("#walk-label")).ToHaveTextAsync("UVL, ultraviolet luminescence");
            Assert.True(await page.Page.EvaluateAsync<bool>("document.documentElement.scrollWidth <= innerWidth"), "it is broader than the screen");
            Assert.Equal("rtl", await page.Page.Locator(".caption p").EvaluateAsync<string>("e => getComputedStyle(e).direction"));
            Assert.True(await page.Page.EvaluateAsync<bool>("document.fonts.check('600 20px \"Source Serif 4\"')"), "its own letters are missing");
            await page.Page.GetByRole(AriaRole.Button, new() { Name = "View as written" }).ClickAsync();
            await page.PressAsync("PageUp");
            await EaselPage.InTheEndAsync(() => PictureIsThereAsync(page.Page));
            await page.Page.ScreenshotAsync(new() { Path = Path.Combine(SpecimenStudio.Artifacts, $"walk-folder-{width}.png") });
            Assert.Empty(foreign);
        }
        // axe reads style sheets anew, which no page that is a file may do.
        if (!address.IsFile) await NoIssueAsync(await studio.OpenElsewhereAsync(address, width, height, bypassPolicy: true));
    }

    /// <summary>In the middle of the stage lies what the export's own whole picture has in its middle, for the view is of the middle.</summary>
    private static async Task PictureIsThereAsync(IPage page)
    {
        var stage = (await page.Locator(".walkstage").BoundingBoxAsync())!;
        var (screen, ground) = (Screen.Of(await page.ScreenshotAsync()), 0x77);
        var (r, g, b) = screen.At(stage.X + stage.Width / 2, stage.Y + stage.Height / 2);
        Assert.False(r == ground && g == ground && b == ground, "the ground shows where the painting should");
        Assert.NotEqual((r, r), (g, b));
    }

    private static async Task NoIssueAsync(EaselPage page)
    {
        await using (page)
        {
            await page.Page.Locator(".presented h2, .caption h2, .walk ol li").First.WaitForAsync();
            var found = await page.Page.RunAxe();
            Assert.Empty(found.Violations.Where(v => v.Impact is "serious" or "critical").Select(v => $"{v.Id}: {v.Help}: {string.Join("; ", v.Nodes.Select(n => n.Html))}"));
        }
    }
}
