namespace Sandarac.Server.Pages;

/// <summary>The pages: Razor components, rendered on the server; live parts through a circuit.</summary>
internal static class PagesSetup
{
    public static void AddPages(this IServiceCollection services)
    {
        services.AddRazorComponents().AddInteractiveServerComponents();
        services.AddAntiforgery(o => o.SuppressXFrameOptionsHeader = true);
        services.AddHttpContextAccessor();
    }

    public static void MapPages(this WebApplication app) =>
        // The frame policy is part of our own header, which every answer carries.
        app.MapRazorComponents<App>().AddInteractiveServerRenderMode(o => o.ContentSecurityFrameAncestorsPolicy = null);
}
