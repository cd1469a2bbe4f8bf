using Sandarac.Imaging;

namespace Sandarac.Server.Security;

/// <summary>
/// Refuses requests that name another host than this machine's loopback with the server's own port. A page elsewhere could otherwise point a
/// name of its own at 127.0.0.1 (DNS rebinding) and read the studio. RFC 9110, 7.2: a wrong Host field is answered with 400.
/// </summary>
internal static class HostGuard
{
    private static readonly HashSet<string> Names = new(["127.0.0.1", "localhost", "[::1]"], StringComparer.OrdinalIgnoreCase);

    public static void UseHostGuard(this WebApplication app) => app.Use((context, next) =>
        IsOurs(context.Request.Host, context.Connection.LocalPort)
            ? next(context)
            : Errors.ProblemAnswers.WriteAsync(context, StatusCodes.Status400BadRequest, new InputProblem("foreign-host", "Host",
                "This server answers only to its own address.", "Open it by the address it printed when it started.")));

    internal static bool IsOurs(HostString host, int localPort) =>
        host.HasValue && Names.Contains(host.Host) && (host.Port ?? 80) == localPort;
}
