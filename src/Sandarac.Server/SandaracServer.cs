using System.Net;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Sandarac.Server.Api;
using Sandarac.Server.Errors;
using Sandarac.Server.Files;
using Sandarac.Server.Pages;
using Sandarac.Server.Pages.Language;
using Sandarac.Server.Security;
using Sandarac.Server.Tiles;
using Sandarac.Server.Walks;
using Sandarac.Studio.Jobs;

namespace Sandarac.Server;

/// <summary>The program's web server: pages, HTTP API and tiles of one studio, for the person at this machine only.</summary>
public static class SandaracServer
{
    /// <summary>Bytes a request may carry: a zone drawn freehand has some ten thousand points at most, half a megabyte as text.</summary>
    public const long MaxRequestBytes = 2L << 20;

    /// <summary>Makes the server, ready for <c>StartAsync</c> or <c>RunAsync</c>. It listens on the loopback addresses only.</summary>
    public static WebApplication Build(ServerOptions options)
    {
        var builder = WebApplication.CreateSlimBuilder(new WebApplicationOptions
        {
            ApplicationName = typeof(SandaracServer).Assembly.GetName().Name,
            EnvironmentName = Environments.Production,
            ContentRootPath = AppContext.BaseDirectory,
            WebRootPath = ShippedFiles.WebRoot,
        });
        builder.Logging.SetMinimumLevel(options.Verbose ? LogLevel.Information : LogLevel.Warning);
        // Its keys live in memory only; that they are not encrypted on disk is nothing to warn of.
        builder.Logging.AddFilter("Microsoft.AspNetCore.DataProtection", LogLevel.Error);
        builder.WebHost.ConfigureKestrel(kestrel =>
        {
            kestrel.Limits.MaxRequestBodySize = MaxRequestBytes;
            kestrel.AddServerHeader = false;
            kestrel.Listen(IPAddress.Loopback, options.Port);
        });
        builder.Services.AddSingleton(options);
        builder.Services.AddSingleton(options.Studio);
        builder.Services.AddSingleton(_ => new JobHost(options.Studio));
        builder.Services.AddSingleton<LayerIndex>();
        builder.Services.AddSingleton<TileStore>();
        builder.Services.AddSingleton<WalkZips>();
        builder.Services.AddProblemAnswers();
        builder.Services.AddPages();
        builder.Services.AddApi();

        var app = builder.Build();
        app.UseSecurityHeaders();
        app.UseHostGuard();
        app.UseCrossSiteGuard();
        app.UseLanguages();
        app.UseProblemAnswers();
        app.UseSizeGuard();
        app.UseShippedFiles(options);
        app.UseRouting();
        app.UseAntiforgery();
        app.MapApi();
        app.MapPages();
        // Runs that were waiting when the program last ended begin as soon as pages can be seen.
        app.Lifetime.ApplicationStarted.Register(() => app.Services.GetRequiredService<JobHost>());
        return app;
    }

    /// <summary>Where a started server is reached: <c>http://127.0.0.1:5180</c>.</summary>
    public static Uri AddressOf(WebApplication started)
    {
        var addresses = started.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>();
        return new Uri(addresses?.Addresses.FirstOrDefault() ?? throw new InvalidOperationException("The server has not started."));
    }
}
