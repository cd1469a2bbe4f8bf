namespace Sandarac.Server.Api;

/// <summary>The HTTP API: one group of endpoints a file.</summary>
internal static class ApiSetup
{
    public static void AddApi(this IServiceCollection services) => services.AddOpenApi("v1");

    public static void MapApi(this WebApplication app) => app.MapOpenApi();
}
