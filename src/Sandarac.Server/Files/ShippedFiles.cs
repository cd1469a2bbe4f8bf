using Microsoft.AspNetCore.StaticFiles;
using Microsoft.Extensions.FileProviders;

namespace Sandarac.Server.Files;

/// <summary>Files shipped with the program: style, fonts, Blazor's script, and the viewer.</summary>
internal static class ShippedFiles
{
    /// <summary>Where they lie: beside the program, from the build as well as from a published copy.</summary>
    public static string WebRoot { get; } = Path.Combine(AppContext.BaseDirectory, "wwwroot");

    /// <summary>Whether the viewer was built.</summary>
    public static bool HasViewer(ServerOptions options) => File.Exists(Path.Combine(options.ViewerFolder ?? Path.Combine(WebRoot, "viewer"), "easel.js"));

    public static void UseShippedFiles(this WebApplication app, ServerOptions options)
    {
        if (options.ViewerFolder is { } folder)
            app.UseStaticFiles(new StaticFileOptions
            {
                RequestPath = "/viewer", FileProvider = new PhysicalFileProvider(Path.GetFullPath(folder)), OnPrepareResponse = Revalidate,
            });
        app.UseStaticFiles(new StaticFileOptions { OnPrepareResponse = Revalidate });
    }

    /// <summary>Kept by the browser, but asked for again each time: a new version of the program must not meet old files.</summary>
    private static void Revalidate(StaticFileResponseContext context) => context.Context.Response.Headers.CacheControl = "no-cache";
}
