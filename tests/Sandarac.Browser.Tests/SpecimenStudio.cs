using Microsoft.AspNetCore.Builder;
using Microsoft.EntityFrameworkCore;
using Microsoft.Playwright;
using Sandarac.Server;
using Sandarac.Specimen;
using Sandarac.Studio;
using Sandarac.Studio.Record;

[assembly: AssemblyFixture(typeof(Sandarac.Browser.Tests.SpecimenStudio))]
[assembly: CollectionBehavior(CollectionBehavior.CollectionPerAssembly)]

namespace Sandarac.Browser.Tests;

/// <summary>A small specimen, examined, served on a free port, and a real Chromium to look at it. Made once for all tests.</summary>
public sealed class SpecimenStudio : IAsyncLifetime
{
    private const string Chromium = "/usr/bin/chromium";
    private const string Missing = $"{Chromium} is not installed; 'apt-get install chromium' brings it.";

    private readonly string _folder = Directory.CreateTempSubdirectory("sandarac-browser").FullName;
    private readonly string _aside;
    private WebApplication? _app;
    private OpenStudio? _studio;
    private IPlaywright? _playwright;
    private IBrowser? _browser;
    private Guid? _drawnOn;

    public SpecimenStudio() => _aside = Path.Combine(_folder, "aside");

    /// <summary>As few photographs in raking light as tell the surface, with their boards. All but the first are kept out of the painting that most tests look at.</summary>
    public static IReadOnlyList<string> Raking { get; } =
        ["RAK_N_az000_el15.tif", "RAK_SE_az135_el15.tif", "RAK_SW_az225_el15.tif", "RAK_N_az000_el15_flat.tif", "RAK_SE_az135_el15_flat.tif", "RAK_SW_az225_el15_flat.tif"];

    /// <summary>Where the page is served.</summary>
    public Uri Address { get; private set; } = null!;

    /// <summary>The painting's key.</summary>
    public Guid Painting { get; private set; }

    /// <summary>A painting without photographs.</summary>
    public Guid EmptyPainting { get; private set; }

    /// <summary>The same painting once more, to draw zones on: on the first they would lie over what other tests look at.</summary>
    public Guid DrawnOn => _drawnOn ??= ExamineAlone("VIS_01.tif");

    /// <summary>What the specimen's cameras delivered.</summary>
    public string Photographs => Path.Combine(_folder, "specimen", "photographs");

    /// <summary>Pictures of the screen, kept for people to look at.</summary>
    public static string Artifacts { get; } = Directory.CreateDirectory(Path.Combine(Checkout(), "artifacts", "browser")).FullName;

    /// <summary>Photographs that <see cref="ExamineAlone"/> takes besides; a test may put its own here.</summary>
    public string Aside => _aside;

    public async ValueTask InitializeAsync()
    {
        if (!File.Exists(Chromium)) return;
        var specimen = Path.Combine(_folder, "specimen");
        SpecimenDrawing.Draw(new SpecimenSettings(60, OnlyPhotographs:
            ["VIS_01.tif", "VIS_chart.tif", "RAK_N_az000_el15.tif", "UVL_01.tif", "IR_01.tif", "XSEC_S1_VIS.tif", .. Raking]), specimen);
        Directory.CreateDirectory(_aside);
        foreach (var photograph in Raking.Skip(1)) File.Move(Path.Combine(Photographs, photograph), Path.Combine(_aside, photograph));
        _studio = OpenStudio.At(Path.Combine(_folder, "studio"));
        var examined = new Examining(_studio).Examine(Photographs, new ExamineOptions
        {
            Title = SpecimenPainting.Title, Technique = SpecimenPainting.Technique, HeightMm = SpecimenPainting.HeightMm, WidthMm = SpecimenPainting.WidthMm,
        });
        Painting = examined.Painting.Id;
        using (var db = _studio.CreateDb())
        {
            var empty = new Painting { Title = "Nothing photographed yet", WidthMm = 300, HeightMm = 200, CreatedAt = DateTime.UtcNow };
            db.Paintings.Add(empty);
            // Proposed zones would lie over what the tests compare.
            db.Zones.ExecuteDelete();
            db.SaveChanges();
            EmptyPainting = empty.Id;
        }
        await StartServerAsync();
        _playwright = await Playwright.CreateAsync();
        _browser = await _playwright.Chromium.LaunchAsync(new()
        {
            // WebGL 2 in software: these machines have no graphics card.
            ExecutablePath = Chromium, Args = ["--no-sandbox", "--enable-unsafe-swiftshader", "--use-gl=angle", "--use-angle=swiftshader"],
        });
    }

    /// <summary>Stops the server and starts another on the same studio.</summary>
    public async Task RestartServerAsync()
    {
        var folder = _studio!.Folder;
        await StopServerAsync();
        _studio = OpenStudio.At(folder);
        await StartServerAsync();
    }

    /// <summary>Some of the photographs as a painting of their own, for tests that change more than they can put back.</summary>
    public Guid ExamineAlone(params ReadOnlySpan<string> photographs)
    {
        if (_browser is null) Assert.Skip(Missing);
        var folder = Directory.CreateDirectory(Path.Combine(_folder, Guid.NewGuid().ToString("N"))).FullName;
        foreach (var photograph in photographs)
            File.Copy(Path.Combine(File.Exists(Path.Combine(_aside, photograph)) ? _aside : Photographs, photograph), Path.Combine(folder, photograph));
        return new Examining(_studio!).Examine(folder, new ExamineOptions { HeightMm = SpecimenPainting.HeightMm, WidthMm = SpecimenPainting.WidthMm, CornersOnly = true }).Painting.Id;
    }

    /// <summary>Opens a page of the painting, or of another: "easel", "photographs", ... with a query.</summary>
    public async Task<EaselPage> OpenAsync(string query = "", string page = "easel", bool bypassPolicy = false, Guid? painting = null, bool reducedMotion = false)
    {
        if (_browser is null) Assert.Skip(Missing);
        var context = await _browser.NewContextAsync(new()
        {
            ViewportSize = new() { Width = 1440, Height = 900 }, BypassCSP = bypassPolicy, Locale = "en-GB", ReducedMotion = reducedMotion ? ReducedMotion.Reduce : ReducedMotion.NoPreference,
        });
        return await EaselPage.OpenAsync(context, new Uri(Address, $"/paintings/{painting ?? Painting}/{page}{query}"), Address);
    }

    /// <summary>Opens a page that is not the server's: a file, or another server's.</summary>
    public async Task<EaselPage> OpenElsewhereAsync(Uri address, int width, int height, bool bypassPolicy = false)
    {
        if (_browser is null) Assert.Skip(Missing);
        var context = await _browser.NewContextAsync(new() { ViewportSize = new() { Width = width, Height = height }, BypassCSP = bypassPolicy, Locale = "en-GB", ReducedMotion = ReducedMotion.Reduce });
        return await EaselPage.OpenAsync(context, address, Address);
    }

    public async ValueTask DisposeAsync()
    {
        if (_browser is not null) await _browser.DisposeAsync();
        _playwright?.Dispose();
        if (_app is not null) await StopServerAsync();
        Directory.Delete(_folder, recursive: true);
    }

    private async Task StartServerAsync()
    {
        var viewer = Path.Combine(Checkout(), "src", "Sandarac.Server", "wwwroot", "viewer");
        Assert.True(File.Exists(Path.Combine(viewer, "easel.js")), "The viewer is not built: run 'npm ci' and 'npm run build' in viewer/, or ./test.");
        _app = SandaracServer.Build(new ServerOptions { Studio = _studio!, Port = 0, ViewerFolder = viewer });
        await _app.StartAsync();
        Address = SandaracServer.AddressOf(_app);
    }

    private async Task StopServerAsync()
    {
        await _app!.StopAsync();
        await _app.DisposeAsync();
        _studio!.Dispose();
    }

    private static string Checkout()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "Sandarac.slnx"))) folder = folder.Parent!;
        return folder.FullName;
    }
}
