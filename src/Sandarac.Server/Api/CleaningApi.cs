using Sandarac.Studio;
using Sandarac.Studio.Cleaning;

namespace Sandarac.Server.Api;

/// <summary>Cleaning tests.</summary>
internal static class CleaningApi
{
    public static void MapCleaning(this RouteGroupBuilder api)
    {
        api.MapWritten("cleaning-tests", studio => new CleaningTests(studio));
        api.MapGet("/cleaning-tests/{id:guid}/flags", (Guid id, OpenStudio studio) => TestFlags.Of(new CleaningTests(studio).Find(id).Content)).WithSummary("Whether a test went further than planned, and what else is to be noticed about it");
    }
}
