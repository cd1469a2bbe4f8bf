namespace Sandarac.Server.Security;

/// <summary>
/// Refuses a page's form that is larger than the server takes before anything reads it: whoever reads it first, looking for the form's token, would make a refusal without words of it. The endpoints for programs say so themselves.
/// </summary>
internal static class FormSizeGuard
{
    public static void UseFormSizeGuard(this WebApplication app) => app.Use((context, next) =>
    {
        if (!(context.Request.ContentLength > SandaracServer.MaxRequestBytes) || context.Request.Path.StartsWithSegments("/api")) return next(context);
        // The page that tells it is asked for as any page is: it must not look for the form again.
        (context.Request.Method, context.Request.ContentLength, context.Request.ContentType) = (HttpMethods.Get, null, null);
        throw new BadHttpRequestException("The form is too large.", StatusCodes.Status413PayloadTooLarge);
    });
}
