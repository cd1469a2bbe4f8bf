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

    public static void UseSizeGuard(this WebApplication app) => app.Use(async (context, next) =>
    {
        context.Response.OnStarting(SayClosed, context);
        if (!(context.Request.ContentLength > SandaracServer.MaxRequestBytes))
        {
            await next(context);
            return;
        }
        if (context.Request.Headers.Expect.Count == 0 && context.Request.ContentLength <= ReadAway) await ReadAwayAsync(context);
        // The page that tells it is asked for as any page is: it must not look for the form again.
        if (!context.Request.Path.StartsWithSegments("/api")) (context.Request.Method, context.Request.ContentLength, context.Request.ContentType) = (HttpMethods.Get, null, null);
        throw new BadHttpRequestException("The request is too large.", StatusCodes.Status413PayloadTooLarge);
    });

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
