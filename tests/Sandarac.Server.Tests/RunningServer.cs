using Microsoft.AspNetCore.Builder;
using Sandarac.Studio;

namespace Sandarac.Server.Tests;

/// <summary>The real server on a free loopback port, over a studio in a temporary folder.</summary>
public sealed class RunningServer : IAsyncLifetime
{
    private readonly string _folder = Directory.CreateTempSubdirectory("sandarac-server").FullName;
    private WebApplication _app = null!;

    public HttpClient Client { get; private set; } = null!;

    public OpenStudio Studio { get; private set; } = null!;

    public async ValueTask InitializeAsync()
    {
        var viewer = Directory.CreateDirectory(Path.Combine(_folder, "viewer")).FullName;
        await File.WriteAllTextAsync(Path.Combine(viewer, "easel.js"), "export {};");
        Studio = OpenStudio.At(Path.Combine(_folder, "studio"));
        _app = SandaracServer.Build(new ServerOptions { Studio = Studio, Port = 0, ViewerFolder = viewer });
        await _app.StartAsync();
        Client = new HttpClient(new HttpClientHandler { AllowAutoRedirect = false }) { BaseAddress = SandaracServer.AddressOf(_app) };
    }

    public async ValueTask DisposeAsync()
    {
        Client.Dispose();
        await _app.StopAsync();
        await _app.DisposeAsync();
        Studio.Dispose();
        Directory.Delete(_folder, recursive: true);
    }
}
