using Sandarac.Materials.Terms;
using Sandarac.Studio;
using Sandarac.Studio.Record;

namespace Sandarac.Server.Api;

/// <summary>A candidate that was judged.</summary>
/// <param name="ZoneId">The zone.</param>
/// <param name="Name">Its name.</param>
/// <param name="Kind">Its kind.</param>
/// <param name="Verdict">"Kept" or "Rejected".</param>
/// <param name="Reason">Why it was rejected.</param>
/// <param name="FindingId">The finding that it became.</param>
/// <param name="By">Who decided.</param>
/// <param name="At">When.</param>
internal sealed record JudgedShape(Guid ZoneId, string Name, string Kind, CandidateVerdict Verdict, string Reason, Guid? FindingId, string By, DateTime At);

/// <summary>Why a candidate is none.</summary>
internal sealed record Rejection(string Reason);

/// <summary>A new term.</summary>
internal sealed record TermDraft(string Category, string Group, string Name, string Definition);

/// <summary>Findings, the candidates that become them, the terms that they use, and the search over all of them.</summary>
internal static class FindingsApi
{
    public static void MapFindings(this RouteGroupBuilder api)
    {
        api.MapWritten("findings", studio => new Findings(studio));
        api.MapGet("/paintings/{id:guid}/candidates/judged", Judged).WithSummary("Candidates that were judged, the last decision first");
        api.MapPost("/zones/{zoneId:guid}/keep", Keep).WithSummary("Makes a candidate a finding; If-Match names the zone's revision").Produces<WrittenShape<FindingContent>>(StatusCodes.Status201Created);
        api.MapPost("/zones/{zoneId:guid}/reject", Reject).WithSummary("Rejects a candidate with a reason; If-Match names the zone's revision").Produces(StatusCodes.Status204NoContent);
        api.MapPost("/zones/{zoneId:guid}/reopen", (Guid zoneId, OpenStudio studio) => ZoneShape.Of(new Candidates(studio).Reopen(zoneId, Environment.UserName))).WithSummary("Takes the last decision about a candidate back");
        api.MapGet("/terms", (string? words, OpenStudio studio) => new StudioTerms(studio).Find(words ?? "")).WithSummary("Terms, those with all the words");
        api.MapPost("/terms", AddTerm).WithSummary("Adds a term of the studio's own").Produces<Term>(StatusCodes.Status201Created);
        api.MapGet("/search", Search).WithSummary("Findings and samples of all paintings, the latest first");
    }

    private static IReadOnlyList<JudgedShape> Judged(Guid id, OpenStudio studio) =>
        [.. new Candidates(studio).Judged(id).Select(j => new JudgedShape(j.Zone.Id, j.Zone.Name, j.Zone.Kind, j.Decision!.Verdict, j.Decision.Reason, j.Decision.FindingId, j.Decision.By, j.Decision.At))];

    private static IResult Keep(Guid zoneId, FindingContent? content, OpenStudio studio, HttpRequest request, HttpResponse response) =>
        WrittenApi.Answer(new Candidates(studio).Keep(zoneId, IfMatch.Revision(request), content, Environment.UserName), response, StatusCodes.Status201Created);

    private static IResult Reject(Guid zoneId, Rejection rejection, OpenStudio studio, HttpRequest request)
    {
        new Candidates(studio).Reject(zoneId, IfMatch.Revision(request), rejection.Reason, Environment.UserName);
        return Results.NoContent();
    }

    private static IResult AddTerm(TermDraft draft, OpenStudio studio) =>
        Results.Json(new StudioTerms(studio).Add(draft.Category, draft.Group, draft.Name, draft.Definition, Environment.UserName), statusCode: StatusCodes.Status201Created);

    private static SearchAnswer Search(OpenStudio studio, string? words, string? term, string? light, string? material, DateOnly? from, DateOnly? to, double? leastMm2, double? mostMm2, SearchSubject? subject, Guid? painting, int? skip, int? take) =>
        new Searching(studio).Find(new SearchQuestion
        {
            Words = words ?? "", Term = term ?? "", Light = light ?? "", Material = material ?? "", From = from, To = to, LeastMm2 = leastMm2, MostMm2 = mostMm2, Subject = subject, PaintingId = painting, Skip = skip ?? 0, Take = take ?? 50,
        });
}
