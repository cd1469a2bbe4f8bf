using Microsoft.AspNetCore.Builder;

namespace Sandarac.Server.Tests;

/// <summary>The real server on a free loopback port.</summary>
public sealed class RunningServer : IAsyncLifetime
{
    private readonly string _viewer = Directory.CreateTempSubdirectory("sandarac-viewer").FullName;
    private WebApplication _app = null!;

    public HttpClient Client { get; private set; } = null!;

    public async ValueTask InitializeAsync()
    {
        await File.WriteAllTextAsync(Path.Combine(_viewer, "easel.js"), "export {};");
        _app = SandaracServer.Build(new ServerOptions { Port = 0, ViewerFolder = _viewer });
        await _app.StartAsync();
        Client = new HttpClient(new HttpClientHandler { AllowAutoRedirect = false }) { BaseAddress = SandaracServer.AddressOf(_app) };
    }

    public async ValueTask DisposeAsync()
    {
        Client.Dispose();
        await _app.StopAsync();
        await _app.DisposeAsync();
        Directory.Delete(_viewer, recursive: true);
    }
}
