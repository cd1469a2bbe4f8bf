using Sandarac.Analysis.Lights;
using Sandarac.Imaging;
using Sandarac.Imaging.Formats;
using Sandarac.Imaging.Geometry;
using Sandarac.Studio;
using Sandarac.Studio.Documents;
using Sandarac.Studio.Jobs;
using Sandarac.Studio.Record;

namespace Sandarac.Server.Api;

/// <summary>One alignment of a photograph; the last one is in force.</summary>
internal sealed record AlignmentShape(int Version, string Method, string Verdict, string Reason, Residuals? Residuals,
    IReadOnlyList<IReadOnlyList<double>> Corners, Guid? RunId, DateTime CreatedAt, bool InForce);

/// <summary>A photograph: its file, its light, and how it came onto the plane.</summary>
internal sealed record PhotographShape(Guid Id, Guid PaintingId, string FileName, string Sha256, string? Light, string? LightSide, double? AzimuthDeg,
    double? ElevationDeg, Confidence LightConfidence, string LightReason, PhotographSubject Subject, ImageFacts Facts, DateTime? TakenAt, DateTime ImportedAt,
    IReadOnlyList<Warning> Warnings, IReadOnlyList<AlignmentShape> Alignments);

/// <summary>The painted face's corners in a photograph: upper left, upper right, lower right, lower left, pixels.</summary>
internal sealed record CornersShape(IReadOnlyList<IReadOnlyList<double>>? Corners);

/// <summary>A run that was asked for.</summary>
internal sealed record RunAsked(Guid RunId);

/// <summary>Photographs and their corners.</summary>
internal static class PhotographsApi
{
    public static void MapPhotographs(this RouteGroupBuilder api)
    {
        api.MapGet("/photographs/{id:guid}", Get).WithSummary("A photograph's facts and the history of its alignment");
        api.MapGet("/photographs/{id:guid}/corners", Corners).WithSummary("The painted face's corners, found or set; null when there are none");
        api.MapPut("/photographs/{id:guid}/corners", SetCorners).WithSummary("Sets the corners by hand and aligns again").Produces<RunAsked>(StatusCodes.Status202Accepted);
    }

    private static PhotographShape Get(Guid id, OpenStudio studio)
    {
        var p = studio.FindPhotograph(id);
        return new PhotographShape(p.Id, p.PaintingId, p.FileName, p.Sha256, p.Light, p.LightSide, p.AzimuthDeg, p.ElevationDeg, p.LightConfidence,
            p.LightReason, p.Subject, p.Facts, p.TakenAt, p.ImportedAt, p.Warnings, [.. p.Alignments.Select(Shape)]);
    }

    private static CornersShape Corners(Guid id, OpenStudio studio) =>
        new(studio.FindPhotograph(id).Alignments.LastOrDefault(a => a.Corners.Count == 4) is { } last ? Pairs(last.Corners) : null);

    private static IResult SetCorners(Guid id, CornersShape body, OpenStudio studio, JobHost jobs)
    {
        var corners = body.Corners ?? [];
        if (corners.Count != 4 || corners.Any(c => c is not [_, _] || c.Any(v => !double.IsFinite(v))))
            throw new InputProblem("corners", "corners", "These are not four corners.",
                "Give four pairs of pixels: upper left, upper right, lower right, lower left.");
        var run = new Aligning(studio).QueueByHand(id, [.. corners.Select(c => new Point2(c[0], c[1]))], Environment.UserName);
        jobs.Enqueue(run.Id);
        return Results.Accepted($"/api/runs/{run.Id}", new RunAsked(run.Id));
    }

    private static AlignmentShape Shape(Alignment a) => new(a.Version, a.Method, Words.VerdictOf(a.Verdict), a.Reason, a.Residuals,
        Pairs(a.Corners), a.RunId, a.CreatedAt, a.SupersededBy is null);

    private static IReadOnlyList<IReadOnlyList<double>> Pairs(IReadOnlyList<Point2> points) => [.. points.Select(p => new[] { p.X, p.Y })];
}
