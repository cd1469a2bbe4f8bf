using System.Globalization;
using Microsoft.AspNetCore.Localization;

namespace Sandarac.Server.Pages.Language;

/// <summary>The languages that pages are written in, and which of them a request is answered in: the one asked for in its address, else the one chosen
/// before, else what the browser prefers, else English.</summary>
internal static class Languages
{
    /// <summary>Name of the address' part that chooses a language, and of the cookie that remembers it.</summary>
    public const string Field = "language";

    /// <summary>ISO 639-1 codes, and what each language calls itself.</summary>
    public static IReadOnlyList<(string Code, string Name)> All { get; } = [("en", "English"), ("es", "Español")];

    /// <summary>Comes before whatever answers with a page. Programs are answered in English.</summary>
    public static void UseLanguages(this WebApplication app) => app.UseWhen(context => !context.Request.Path.StartsWithSegments("/api"), pages =>
    {
        pages.Use(Remember);
        pages.UseRequestLocalization(new RequestLocalizationOptions
        {
            // What reads and writes figures by the thread's culture stays as it is: pages write them by PageText.
            DefaultRequestCulture = new RequestCulture(CultureInfo.InvariantCulture, CultureInfo.GetCultureInfo("en")),
            SupportedCultures = null,
            SupportedUICultures = [.. All.Select(l => CultureInfo.GetCultureInfo(l.Code))],
            ApplyCurrentCultureToResponseHeaders = true,
            RequestCultureProviders = [new CustomRequestCultureProvider(Chosen), new AcceptLanguageHeaderRequestCultureProvider()],
        });
    });

    private static Task Remember(HttpContext context, RequestDelegate next)
    {
        if (Known(context.Request.Query[Field]) is { } asked)
            context.Response.Cookies.Append(Field, asked, new CookieOptions { HttpOnly = true, IsEssential = true, SameSite = SameSiteMode.Lax, MaxAge = TimeSpan.FromDays(365) });
        return next(context);
    }

    private static Task<ProviderCultureResult?> Chosen(HttpContext context)
    {
        var code = Known(context.Request.Query[Field]) ?? Known(context.Request.Cookies[Field]);
        return Task.FromResult(code is null ? null : new ProviderCultureResult(code));
    }

    private static string? Known(string? code) => All.Any(l => l.Code == code) ? code : null;
}
