using Sandarac.Analysis.Rings.Dating;
using Sandarac.Imaging;
using Sandarac.Studio;
using Sandarac.Studio.Record;
using Sandarac.Studio.Rings;

namespace Sandarac.Server.Api;

/// <summary>Which run's rings to write into the record, and under which name.</summary>
internal sealed record TakeRingsAsk(Guid? RunId, string? Name, string? Board);

/// <summary>All boundaries of a series, mm along its line.</summary>
internal sealed record BoundariesAsk(IReadOnlyList<double>? BoundariesMm);

/// <summary>Ring series of panels, references, and dates.</summary>
internal static class RingsApi
{
    public static void MapRings(this RouteGroupBuilder api)
    {
        var user = Environment.UserName;
        api.MapWritten("ring-series", studio => new RingSeriesRecords(studio));
        api.MapPost("/paintings/{id:guid}/ring-series/import", async (Guid id, string fileName, HttpRequest request, OpenStudio studio) =>
            new RingDesk(studio).Import(id, fileName, await FileBody.ReadAsync(request), user).Select(WrittenApi.Shape<RingSeriesContent>).ToList()).WithSummary("Writes every series of a file of ring widths (the request's body; .rwl or .csv by its name) into the record");
        api.MapGet("/paintings/{id:guid}/ring-series.rwl", (Guid id, OpenStudio studio) => Results.Text(new RingDesk(studio).Export(id), "text/plain; charset=utf-8")).WithSummary("A painting's ring series in the Tucson decadal format").Produces<string>(StatusCodes.Status200OK, "text/plain");
        api.MapPost("/paintings/{id:guid}/ring-series/take-over", (Guid id, TakeRingsAsk ask, OpenStudio studio, HttpResponse response) => WrittenApi.Answer(new RingDesk(studio).TakeOver(id, ask.RunId ?? Guid.Empty, ask.Name ?? "", ask.Board ?? "", user), response, StatusCodes.Status201Created))
            .WithSummary("Makes a series of the rings that a run of ring-widths found").Produces<WrittenShape<RingSeriesContent>>(StatusCodes.Status201Created);
        api.MapPut("/ring-series/{id:guid}/boundaries", (Guid id, BoundariesAsk ask, OpenStudio studio, HttpRequest request, HttpResponse response) =>
            WrittenApi.Answer(new RingSeriesRecords(studio).Change(id, IfMatch.Revision(request), RingBoundaries.Corrected(new RingSeriesRecords(studio).Find(id).Content, ask.BoundariesMm ?? []), user), response))
            .WithSummary("Corrects a series' boundaries; the widths follow").Produces<WrittenShape<RingSeriesContent>>();
        api.MapGet("/ring-series/{id:guid}/strip", Strip).WithSummary("The photograph along a series' line, the line from left to right").Produces<byte[]>(StatusCodes.Status200OK, "image/webp");
        api.MapGet("/reference-chronologies", (OpenStudio studio) => new RingReferences(studio).All()).WithSummary("References in use");
        api.MapPost("/reference-chronologies", async (string name, string source, string fileName, HttpRequest request, OpenStudio studio, string region = "") => new RingReferences(studio).Add(name, region, source, fileName, await FileBody.ReadAsync(request), user))
            .WithSummary("Adds a file of dated series (the request's body) to compare with");
        api.MapPost("/reference-chronologies/{id:guid}/withdraw", (Guid id, OpenStudio studio) =>
        {
            new RingReferences(studio).Withdraw(id);
            return Results.NoContent();
        }).WithSummary("Takes a reference out of use").Produces(StatusCodes.Status204NoContent);
        api.MapGet("/ring-series/{id:guid}/dating", (Guid id, OpenStudio studio, Guid[] references, RingTransformKind transform = RingTransformKind.BailliePilcher, TConvention convention = TConvention.Pairs, MasterMean mean = MasterMean.Biweight, int? overlap = null, string model = "", string seasoning = "") =>
            RingDatingShape.Of(new RingDatingAsk(references, transform, convention, mean, overlap, model, seasoning).Date(studio, id))).WithSummary("Compares a series with references: the year of its last ring, or that there is none; felling and use as ranges");
    }

    private static IResult Strip(Guid id, OpenStudio studio) => RingStripPicture.Of(studio, new RingSeriesRecords(studio).Find(id)) is { } strip ? Results.Bytes(strip.Draw(studio), "image/webp")
        : throw new InputProblem("no-strip", id.ToString(), "This series was not measured on a photograph that is there.", "Series that came in a file have no picture.");
}
