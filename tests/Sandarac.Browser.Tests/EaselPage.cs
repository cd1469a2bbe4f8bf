using System.Diagnostics;
using System.Net.Http.Json;
using System.Text.Json;
using Microsoft.Playwright;

namespace Sandarac.Browser.Tests;

/// <summary>One page in the browser. Closing it fails the test when the page had an error, a refused request or broke its security policy.</summary>
public sealed class EaselPage : IAsyncDisposable
{
    /// <summary>Graphics in software may lag behind the page that orders them: waits for two frames and for every canvas to be drawn.</summary>
    private const string DrawnToTheEnd = """
        async () => {
          for (let i = 0; i < 2; i++) await new Promise(requestAnimationFrame);
          for (const canvas of document.querySelectorAll('.stage canvas')) canvas.getContext('webgl2')?.finish();
        }
        """;

    private readonly IBrowserContext _context;
    private readonly List<string> _complaints = [];

    private EaselPage(IBrowserContext context, IPage page, Uri server)
    {
        _context = context;
        Page = page;
        Server = server;
    }

    public IPage Page { get; }

    public Uri Server { get; }

    /// <summary>The stage's place in the window.</summary>
    public async Task<LocatorBoundingBoxResult> StageAsync() => (await Page.Locator(".stage").BoundingBoxAsync())!;

    /// <summary>Complaints that a test provokes on purpose are taken out by it.</summary>
    public IList<string> Complaints => _complaints;

    internal static async Task<EaselPage> OpenAsync(IBrowserContext context, Uri address, Uri server)
    {
        var page = await context.NewPageAsync();
        var easel = new EaselPage(context, page, server);
        // A broken policy is reported as a console error too.
        page.Console += (_, message) => { if (message.Type == "error" && !IsOfTheBrowser(message.Location)) easel._complaints.Add($"{message.Text} ({message.Location})"); };
        page.PageError += (_, error) => easel._complaints.Add(error);
        page.Response += (_, response) => { if (response.Status >= 400 && !IsOfTheBrowser(response.Url)) easel._complaints.Add($"{response.Status} {response.Url}"); };
        await page.GotoAsync(address.ToString());
        return easel;
    }

    /// <summary>Waits until every tile that is seen is drawn and nothing changes on the screen any more.</summary>
    public async Task<Screen> SettleAsync(string? keepAs = null)
    {
        await Page.Locator("#easel.easel").WaitForAsync();
        await Page.WaitForLoadStateAsync(LoadState.NetworkIdle);
        var (before, alike) = (Array.Empty<byte>(), 0);
        for (var i = 0; i < 100; i++)
        {
            await Page.EvaluateAsync(DrawnToTheEnd);
            var busy = await Page.Locator(".stage[aria-busy=true]").CountAsync() > 0;
            var now = await Page.ScreenshotAsync();
            alike = !busy && now.AsSpan().SequenceEqual(before) ? alike + 1 : 0;
            // On a loaded machine two pictures in a row may both be of a page that has not begun to draw.
            if (alike == 3) return Keep(now, keepAs);
            before = now;
            await Task.Delay(120, TestContext.Current.CancellationToken);
        }
        throw new TimeoutException("The page never came to rest.");
    }

    /// <summary>Looks again, for a while, until what is asserted holds: what a page shows in the end counts, not when a loaded machine comes to it.</summary>
    public static async Task InTheEndAsync(Func<Task> look)
    {
        for (var patience = Stopwatch.StartNew(); ;)
        {
            try
            {
                await look();
                return;
            }
            catch (Xunit.Sdk.XunitException) when (patience.Elapsed < TimeSpan.FromSeconds(40))
            {
                // Asking without a pause would keep the server from what is waited for.
                await Task.Delay(150, TestContext.Current.CancellationToken);
            }
        }
    }

    /// <summary>Presses keys one after the other on the stage.</summary>
    public async Task PressAsync(params string[] keys)
    {
        foreach (var key in keys) await Page.Keyboard.PressAsync(key);
    }

    /// <summary>Asks the server for JSON, past the page.</summary>
    public async Task<JsonElement> AskAsync(string path)
    {
        using var client = new HttpClient { BaseAddress = Server };
        return JsonDocument.Parse(await client.GetStringAsync(path, TestContext.Current.CancellationToken)).RootElement;
    }

    /// <summary>Sends the server JSON, past the page.</summary>
    public async Task ChangeAsync(string path, object body)
    {
        using var client = new HttpClient { BaseAddress = Server };
        using var content = JsonContent.Create(body);
        (await client.PostAsync(path, content, TestContext.Current.CancellationToken)).EnsureSuccessStatusCode();
    }

    /// <summary>The query of the address bar, once the page has written it.</summary>
    public async Task<string> LinkAsync()
    {
        await Task.Delay(300, TestContext.Current.CancellationToken);
        return new Uri(Page.Url).Query;
    }

    public async ValueTask DisposeAsync()
    {
        await _context.DisposeAsync();
        Assert.True(_complaints.Count == 0, string.Join(Environment.NewLine, _complaints));
    }

    /// <summary>Browsers ask for this by themselves when a page, here a stored document, names no icon.</summary>
    private static bool IsOfTheBrowser(string address) => address.Contains("/favicon.ico", StringComparison.Ordinal);

    private static Screen Keep(byte[] png, string? name)
    {
        if (name is not null) File.WriteAllBytes(Path.Combine(SpecimenStudio.Artifacts, name + ".png"), png);
        return Screen.Of(png);
    }
}
