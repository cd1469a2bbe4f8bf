using Sandarac.Imaging;
using Sandarac.Server.Walks;
using Sandarac.Studio;

namespace Sandarac.Server.Api;

/// <summary>What an exported folder is to say of itself; each may be left out.</summary>
internal sealed record ExportAsk(string? Base, string? Attribution, string? Rights, int? LongestSide)
{
    public WalkExportOptions Options => new()
    {
        BaseAddress = string.IsNullOrWhiteSpace(Base) ? WalkExportOptions.LocalAddress : Base.Trim(), Attribution = Attribution?.Trim() ?? "", Rights = Rights?.Trim() ?? "", LongestSide = LongestSide ?? 0,
    };
}

/// <summary>An export under way, or done.</summary>
internal sealed record ExportShape(Guid Id, string State, double Done, long? Bytes, string? Problem, string? Remedy, IReadOnlyList<Warning> Warnings)
{
    public static ExportShape Of(WalkZip zip) => new(zip.Id, zip.State, zip.Done, zip.Bytes, zip.Problem?.Message, zip.Problem?.Remedy, zip.Warnings);
}

/// <summary>Walks: written, shown, and exported as a zip of the folder that <c>sandarac walk</c> writes.</summary>
internal static class WalksApi
{
    public static void MapWalks(this RouteGroupBuilder api)
    {
        api.MapWritten("walks", studio => new Studio.Walks(studio));
        api.MapGet("/walks/{id:guid}/shown", (Guid id, OpenStudio studio) => new Studio.Walks(studio).Shown(id)).WithSummary("A walk with all that it shows found: pictures, zones, and what is no longer there");
        api.MapPost("/walks/{id:guid}/exports", (Guid id, ExportAsk ask, WalkZips zips) =>
        {
            var zip = zips.Start(id, ask.Options);
            return Results.Accepted($"/api/exports/{zip.Id}", ExportShape.Of(zip));
        }).WithSummary("Starts to write a walk as a zip").Produces<ExportShape>(StatusCodes.Status202Accepted);
        api.MapGet("/exports/{id:guid}", (Guid id, WalkZips zips) => ExportShape.Of(zips.Find(id))).WithSummary("How far an export is");
        api.MapDelete("/exports/{id:guid}", (Guid id, WalkZips zips) =>
        {
            zips.Find(id).Cancel();
            return Results.NoContent();
        }).WithSummary("Cancels an export, or throws its zip away").Produces(StatusCodes.Status204NoContent);
        api.MapGet("/exports/{id:guid}/zip", (Guid id, WalkZips zips) => zips.Find(id) is { State: WalkZip.IsDone } zip ? Results.File(zip.Path, "application/zip", $"{zip.Name}.zip")
            : throw new InputProblem("export-unfinished", id.ToString(), "This export is not done.", "Wait until it is, or start another.")).WithSummary("The zip").Produces<byte[]>(StatusCodes.Status200OK, "application/zip");
    }
}
