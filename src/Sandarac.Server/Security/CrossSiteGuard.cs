using Sandarac.Imaging;

namespace Sandarac.Server.Security;

/// <summary>
/// Refuses writes, and the pages' live connection, when a browser says that another site's page sends them (Fetch Metadata,
/// https://www.w3.org/TR/fetch-metadata/, and the Origin field). Programs that are no browser send neither and are let through: they could
/// read the studio's folder anyway.
/// </summary>
internal static class CrossSiteGuard
{
    public static void UseCrossSiteGuard(this WebApplication app) => app.Use((context, next) =>
        IsRead(context.Request) || IsOwn(context.Request)
            ? next(context)
            : Errors.ProblemAnswers.WriteAsync(context, StatusCodes.Status403Forbidden, new InputProblem("cross-site", "Origin",
                "Another site's page tried to change the studio.", "Work in the pages of this server only.")));

    private static bool IsRead(HttpRequest request) =>
        (HttpMethods.IsGet(request.Method) || HttpMethods.IsHead(request.Method)) && !request.Path.StartsWithSegments("/_blazor");

    /// <summary>Fetch Metadata decides where it is sent: no page can forge it, while Origin is "null" in a form of our own pages, which tell no referrer.</summary>
    private static bool IsOwn(HttpRequest request)
    {
        var site = request.Headers["Sec-Fetch-Site"].ToString();
        if (site.Length > 0) return site is "same-origin" or "none";
        var origin = request.Headers.Origin.ToString();
        return origin.Length == 0 || string.Equals(origin, $"{request.Scheme}://{request.Host}", StringComparison.OrdinalIgnoreCase);
    }
}
