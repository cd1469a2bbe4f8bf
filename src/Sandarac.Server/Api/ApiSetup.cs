using System.Text.Json;
using System.Text.Json.Serialization;

namespace Sandarac.Server.Api;

/// <summary>The HTTP API: one group of endpoints a file. JSON in camelCase, choices as kebab-case words, lengths in mm, y down.</summary>
internal static class ApiSetup
{
    public static void AddApi(this IServiceCollection services)
    {
        services.ConfigureHttpJsonOptions(o =>
        {
            o.SerializerOptions.Converters.Add(new JsonStringEnumConverter(JsonNamingPolicy.KebabCaseLower, allowIntegerValues: false));
            o.SerializerOptions.NumberHandling = JsonNumberHandling.Strict;
        });
        services.AddOpenApi("v1", o => o.AddDocumentTransformer<ReadingSchemas>());
    }

    public static void MapApi(this WebApplication app)
    {
        var api = app.MapGroup("/api");
        api.MapPaintings();
        api.MapLayers();
        api.MapProfiles();
        api.MapHere();
        api.MapZones();
        api.MapPhotographs();
        api.MapPairs();
        api.MapReadings();
        api.MapRuns();
        api.MapTeaching();
        api.MapSamples();
        api.MapFindings();
        api.MapPlans();
        api.MapChecks();
        api.MapCleaning();
        api.MapRings();
        api.MapDating();
        api.MapSections();
        api.MapBuildUp();
        api.MapDocuments();
        api.MapTreatment();
        api.MapWalks();
        app.MapOpenApi();
    }
}
