using Microsoft.AspNetCore.Http.Features;

namespace Sandarac.Server.Security;

/// <summary>
/// Refuses what is larger than the server takes before anything reads it: whoever reads a page's form first, looking for its token, would make a refusal without words of it.
/// A browser hears an answer only when it has sent all of its request, so that this is read and thrown away first, up to <see cref="ReadAway"/>.
/// </summary>
internal static class SizeGuard
{
    /// <summary>Bytes that are read only to be able to answer: a large photograph chosen by mistake. Who sends more finds the connection closed.</summary>
    private const long ReadAway = 4L << 30;

    public static void UseSizeGuard(this WebApplication app) => app.Use((context, next) =>
    {
        // Most requests are for tiles, which have no body.
        if (context.Features.GetRequiredFeature<IHttpRequestBodyDetectionFeature>().CanHaveBody) context.Response.OnStarting(SayClosed, context);
        return context.Request.ContentLength > SandaracServer.MaxRequestBytes ? RefuseAsync(context) : next(context);
    });

    private static async Task RefuseAsync(HttpContext context)
    {
        var isHeard = context.Request.Headers.Expect.Count == 0 && context.Request.ContentLength <= ReadAway;
        // The page that tells it is asked for as any page is, also when the sender is gone before the end: it must not come here or look for the form again.
        if (!context.Request.Path.StartsWithSegments("/api")) (context.Request.Method, context.Request.ContentLength, context.Request.ContentType) = (HttpMethods.Get, null, null);
        if (isHeard) await ReadAwayAsync(context);
        throw new BadHttpRequestException("The request is too large.", StatusCodes.Status413PayloadTooLarge);
    }

    private static Task ReadAwayAsync(HttpContext context)
    {
        context.Features.GetRequiredFeature<IHttpMaxRequestBodySizeFeature>().MaxRequestBodySize = ReadAway;
        return context.Request.Body.CopyToAsync(Stream.Null, context.RequestAborted);
    }

    /// <summary>The server closes a connection whose request it has not read; who is not told (RFC 9112, section 9.6) loses the next request on it.</summary>
    private static Task SayClosed(object context)
    {
        var response = ((HttpContext)context).Response;
        if (response.StatusCode == StatusCodes.Status413PayloadTooLarge) response.Headers.Connection = "close";
        return Task.CompletedTask;
    }
}
