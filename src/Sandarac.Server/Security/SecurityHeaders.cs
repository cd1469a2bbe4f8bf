using Sandarac.Studio.Documents.Web;

namespace Sandarac.Server.Security;

/// <summary>Headers that every answer carries, errors included.</summary>
internal static class SecurityHeaders
{
    /// <summary>Nothing from elsewhere, nothing inline, no frames. https://www.w3.org/TR/CSP3/</summary>
    public const string Policy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob: data:; font-src 'self'; "
        + "connect-src 'self'; worker-src 'self' blob:; base-uri 'none'; form-action 'self'; frame-ancestors 'none'";

    /// <summary>For pages with a live part: Blazor's script finds its connection by the page's base address.</summary>
    public const string LivePagePolicy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob: data:; font-src 'self'; "
        + "connect-src 'self'; worker-src 'self' blob:; base-uri 'self'; form-action 'self'; frame-ancestors 'none'";

    /// <summary>For a document: it is one file with its own style, known by its hash, and pictures; it may run nothing and reach nothing.</summary>
    public static readonly string DocumentPolicy = $"default-src 'none'; style-src {DocumentStyle.PolicySource}; img-src data:; font-src data:; base-uri 'none'; "
        + "form-action 'none'; frame-ancestors 'none'; sandbox allow-popups allow-top-navigation-by-user-activation";

    public static void UseSecurityHeaders(this WebApplication app) => app.Use((context, next) =>
    {
        context.Response.OnStarting(() =>
        {
            var headers = context.Response.Headers;
            headers.ContentSecurityPolicy = context.Items[nameof(SecurityHeaders)] as string ?? Policy;
            headers.XContentTypeOptions = "nosniff";
            headers["Referrer-Policy"] = "no-referrer";
            headers["Cross-Origin-Opener-Policy"] = "same-origin";
            headers["Cross-Origin-Resource-Policy"] = "same-origin";
            headers["Permissions-Policy"] = "camera=(), geolocation=(), microphone=(), usb=()";
            if (headers.CacheControl.Count == 0) headers.CacheControl = "no-store";
            return Task.CompletedTask;
        });
        return next(context);
    });

    /// <summary>Gives this answer another of the policies above.</summary>
    public static void UsePolicy(this HttpContext context, string policy) => context.Items[nameof(SecurityHeaders)] = policy;
}
