using System.Net;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.StaticFiles;
using Microsoft.Extensions.FileProviders;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;

namespace Sandarac.Browser.Tests;

/// <summary>A plain web server of one folder, as any museum has.</summary>
internal sealed class FolderServer : IDisposable
{
    private readonly WebApplication _app;

    public FolderServer(string folder)
    {
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        builder.WebHost.ConfigureKestrel(k => k.Listen(IPAddress.Loopback, 0));
        _app = builder.Build();
        _app.UseStaticFiles(new StaticFileOptions { FileProvider = new PhysicalFileProvider(folder), ContentTypeProvider = new FileExtensionContentTypeProvider() });
        _app.Start();
        Address = new Uri(_app.Urls.First());
    }

    public Uri Address { get; }

    public void Dispose() => ((IDisposable)_app).Dispose();
}
