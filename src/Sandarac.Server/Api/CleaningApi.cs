using Sandarac.Studio;
using Sandarac.Studio.Cleaning;

namespace Sandarac.Server.Api;

/// <summary>Where a test is, mm on the plane.</summary>
internal sealed record CleaningSpotShape(Guid Id, int Number, double X, double Y, bool IsDone, bool WentFurther);

/// <summary>Cleaning tests.</summary>
internal static class CleaningApi
{
    public static void MapCleaning(this RouteGroupBuilder api)
    {
        api.MapWritten("cleaning-tests", studio => new CleaningTests(studio));
        api.MapGet("/cleaning-tests/{id:guid}/flags", (Guid id, OpenStudio studio) => TestFlags.Of(new CleaningTests(studio).Find(id).Content)).WithSummary("Whether a test went further than planned, and what else is to be noticed about it");
        api.MapGet("/paintings/{id:guid}/cleaning-spots", (Guid id, OpenStudio studio) => CleaningSpots.Of(studio, id).Select(s => new CleaningSpotShape(s.Test.Id, s.Test.Content.Number, s.Place.X, s.Place.Y, s.Test.Content.DoneOn is not null, TestFlags.WentFurther(s.Test.Content))).ToList())
            .WithSummary("Where a painting's cleaning tests are, mm on the plane");
    }
}
