using Microsoft.AspNetCore.Builder;
using Sandarac.Studio;

[assembly: AssemblyFixture(typeof(Sandarac.Server.Tests.RunningServer))]
// One painting serves all tests, and some count what is stored: they take turns.
[assembly: CollectionBehavior(CollectionBehavior.CollectionPerAssembly)]

namespace Sandarac.Server.Tests;

/// <summary>The real server on a free loopback port, over a studio with one painting in a temporary folder.</summary>
public sealed class RunningServer : IAsyncLifetime
{
    private readonly string _folder = Directory.CreateTempSubdirectory("sandarac-server").FullName;
    private WebApplication? _app;

    public HttpClient Client { get; private set; } = null!;

    public OpenStudio Studio { get; private set; } = null!;

    public Seed Seed { get; private set; } = null!;

    public async ValueTask InitializeAsync()
    {
        var viewer = Directory.CreateDirectory(Path.Combine(_folder, "viewer")).FullName;
        foreach (var name in (string[])["easel.js", "walk.js", "walk.css", "LICENCES.txt"]) await File.WriteAllTextAsync(Path.Combine(viewer, name), "");
        Studio = OpenStudio.At(Path.Combine(_folder, "studio"));
        Seed = new Seed(Studio, _folder);
        await StartAsync();
    }

    /// <summary>Ends the server and starts another on the same studio, as a person who closes the program and opens it again.</summary>
    public async Task RestartAsync()
    {
        await StopAsync();
        Studio = OpenStudio.At(Path.Combine(_folder, "studio"));
        await StartAsync();
    }

    public async ValueTask DisposeAsync()
    {
        await StopAsync();
        Directory.Delete(_folder, recursive: true);
    }

    private async Task StartAsync()
    {
        _app = SandaracServer.Build(new ServerOptions { Studio = Studio, Port = 0, ViewerFolder = Path.Combine(_folder, "viewer") });
        await _app.StartAsync();
        Client = new HttpClient(new HttpClientHandler { AllowAutoRedirect = false, UseCookies = false }) { BaseAddress = SandaracServer.AddressOf(_app) };
    }

    private async Task StopAsync()
    {
        Client?.Dispose();
        if (_app is not null)
        {
            await _app.StopAsync();
            await _app.DisposeAsync();
        }
        Studio.Dispose();
    }
}
