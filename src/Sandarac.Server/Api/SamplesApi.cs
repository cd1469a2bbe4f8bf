using Sandarac.Studio;
using Sandarac.Studio.Record;

namespace Sandarac.Server.Api;

/// <summary>Micrographs that belong to no sample yet, by the name that their files give it.</summary>
internal sealed record LooseShape(string Name, IReadOnlyList<Guid> Micrographs);

/// <summary>Which loose micrographs to give to a sample.</summary>
internal sealed record AttachAsk(string? Name);

/// <summary>Paint samples and the layers of their sections.</summary>
internal static class SamplesApi
{
    public static void MapSamples(this RouteGroupBuilder api)
    {
        api.MapWritten("samples", studio => new Samples(studio));
        api.MapWritten("section-layers", studio => new SectionLayers(studio));
        api.MapGet("/paintings/{id:guid}/micrographs/loose", (Guid id, OpenStudio studio) => new Samples(studio).Loose(id).Select(l => new LooseShape(l.Name, [.. l.Photographs.Select(p => p.Id)])).ToList())
            .WithSummary("Micrographs without a sample");
        api.MapPost("/paintings/{id:guid}/micrographs/attach", (Guid id, AttachAsk ask, OpenStudio studio, HttpResponse response) => WrittenApi.Answer(new Samples(studio).Attach(id, ask.Name ?? "", Environment.UserName), response))
            .WithSummary("Gives loose micrographs of one name to the sample of that number, making it if there is none").Produces<WrittenShape<SampleContent>>();
        api.MapPost("/section-layers/{id:guid}/stage", (Guid id, OpenStudio studio, HttpRequest request, HttpResponse response) => WrittenApi.Answer(new SectionLayers(studio).AddStage(id, IfMatch.Revision(request), Environment.UserName), response))
            .WithSummary("Makes a stage of the build-up of a layer that shows none yet").Produces<WrittenShape<LayerContent>>();
    }
}
