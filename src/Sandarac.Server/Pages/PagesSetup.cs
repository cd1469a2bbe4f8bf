using Microsoft.AspNetCore.DataProtection;
using Sandarac.Server.Security;
using Sandarac.Studio;

namespace Sandarac.Server.Pages;

/// <summary>The pages: Razor components, rendered on the server; live parts through a circuit.</summary>
internal static class PagesSetup
{
    public static void AddPages(this IServiceCollection services)
    {
        services.AddRazorComponents().AddInteractiveServerComponents();
        // Forms live as long as the process: nothing is written into the user's home for them.
        services.AddDataProtection().UseEphemeralDataProtectionProvider();
        services.AddAntiforgery(o => o.SuppressXFrameOptionsHeader = true);
    }

    public static void MapPages(this WebApplication app)
    {
        // The frame policy is part of our own header, which every answer carries.
        app.MapRazorComponents<App>().AddInteractiveServerRenderMode(o => o.ContentSecurityFrameAncestorsPolicy = null);
        app.MapGet("/paintings/{id:guid}/document", Document).ExcludeFromDescription();
    }

    /// <summary>The document as it is: one file with its own style and pictures, under its own policy.</summary>
    private static IResult Document(Guid id, OpenStudio studio, HttpContext context)
    {
        context.UsePolicy(SecurityHeaders.DocumentPolicy);
        return Results.Content(new FirstDocument(studio).Html(id), "text/html; charset=utf-8");
    }
}
