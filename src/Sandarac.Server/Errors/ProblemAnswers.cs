using Microsoft.AspNetCore.Diagnostics;
using Microsoft.AspNetCore.Mvc;
using Sandarac.Imaging;

namespace Sandarac.Server.Errors;

/// <summary>
/// Turns errors into answers: problem+json (RFC 9457) with <c>code</c>, <c>subject</c> and <c>remedy</c> for programs, a page in plain words
/// for people. A defect says only that it is one; its details go to the log.
/// </summary>
internal static class ProblemAnswers
{
    private static readonly InputProblem Defect = new("defect", "server", "Something went wrong in the program.",
        "Nothing that was stored is lost. Try again; if it happens again, report what you did, with the program's log.");

    private static readonly InputProblem TooLarge = new("request-too-large", "body",
        $"The request is larger than {SandaracServer.MaxRequestBytes >> 20} MB.", "Send less: a zone with fewer points, a file with one spectrum or fewer series.");

    public static void AddProblemAnswers(this IServiceCollection services) =>
        services.Configure<RouteHandlerOptions>(o => o.ThrowOnBadRequest = true);

    public static void UseProblemAnswers(this WebApplication app)
    {
        app.UseWhen(IsForPrograms, branch =>
        {
            branch.UseExceptionHandler(new ExceptionHandlerOptions { ExceptionHandler = AnswerAsync, SuppressDiagnosticsCallback = IsExpected });
            branch.UseStatusCodePages(c => WriteAsync(c.HttpContext, c.HttpContext.Response.StatusCode, FromStatus(c.HttpContext)));
        });
        app.UseWhen(context => !IsForPrograms(context), branch =>
        {
            branch.UseExceptionHandler(new ExceptionHandlerOptions
            {
                ExceptionHandlingPath = "/error", CreateScopeForErrors = true, StatusCodeSelector = StatusOf, SuppressDiagnosticsCallback = IsExpected,
            });
            branch.UseStatusCodePagesWithReExecute("/error", createScopeForStatusCodePages: true);
        });
    }

    /// <summary>Writes a problem as the whole answer.</summary>
    public static Task WriteAsync(HttpContext context, int status, InputProblem problem)
    {
        context.Response.StatusCode = status;
        return context.Response.WriteAsJsonAsync(Describe(status, problem), options: null, "application/problem+json", context.RequestAborted);
    }

    /// <summary>The status that tells a program what kind of problem it is.</summary>
    public static int StatusOf(Exception error) => error switch
    {
        InputProblem { Code: "unknown-parameter" or "unknown-input" } => StatusCodes.Status400BadRequest,
        InputProblem p when p.Code.StartsWith("unknown-", StringComparison.Ordinal) => StatusCodes.Status404NotFound,
        // Whatever people write tells by such a code that it was changed meanwhile.
        InputProblem p when p.Code.EndsWith("-changed", StringComparison.Ordinal) => StatusCodes.Status412PreconditionFailed,
        InputProblem { Code: "revision-missing" } => StatusCodes.Status428PreconditionRequired,
        InputProblem p when p.Code.StartsWith("object-", StringComparison.Ordinal) => StatusCodes.Status500InternalServerError,
        InputProblem => StatusCodes.Status400BadRequest,
        BadHttpRequestException bad => bad.StatusCode,
        _ => StatusCodes.Status500InternalServerError,
    };

    /// <summary>What a person may know of an error.</summary>
    public static InputProblem ProblemOf(Exception error) => error switch
    {
        InputProblem problem => problem,
        BadHttpRequestException { StatusCode: StatusCodes.Status413PayloadTooLarge } => TooLarge,
        BadHttpRequestException => new("request-malformed", "request", "The request cannot be read: a value is missing or of the wrong kind.",
            "Compare it with /openapi/v1.json."),
        _ => Defect,
    };

    private static bool IsForPrograms(HttpContext context) =>
        context.Request.Path.StartsWithSegments("/api") || context.Request.Path.StartsWithSegments("/openapi");

    private static bool IsExpected(ExceptionHandlerSuppressDiagnosticsContext context) => context.Exception is InputProblem or BadHttpRequestException;

    private static Task AnswerAsync(HttpContext context)
    {
        var error = context.Features.Get<IExceptionHandlerFeature>()!.Error;
        return WriteAsync(context, StatusOf(error), ProblemOf(error));
    }

    private static InputProblem FromStatus(HttpContext context) => context.Response.StatusCode switch
    {
        StatusCodes.Status404NotFound => new("unknown-address", context.Request.Path, "There is nothing at this address.", "See /openapi/v1.json."),
        StatusCodes.Status405MethodNotAllowed => new("method-not-allowed", context.Request.Method, "This address does not take that method.",
            "See /openapi/v1.json."),
        StatusCodes.Status413PayloadTooLarge => TooLarge,
        StatusCodes.Status415UnsupportedMediaType => new("media-type", "Content-Type", "The body is not JSON.", "Send application/json."),
        _ => new("request-malformed", "request", "The request was refused.", "See /openapi/v1.json."),
    };

    private static ProblemDetails Describe(int status, InputProblem problem) => new()
    {
        Status = status,
        Title = problem.Message,
        Extensions = { ["code"] = problem.Code, ["subject"] = problem.Subject, ["remedy"] = problem.Remedy },
    };
}
