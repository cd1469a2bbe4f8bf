using Sandarac.Studio.Jobs;
using Sandarac.Studio;
using Sandarac.Studio.Record;

namespace Sandarac.Server.Api;

/// <summary>What a check is started with.</summary>
internal sealed record CheckDraft(string Name, Occasion Occasion, DateOnly? On, string? Place);

/// <summary>Why a state is sealed with something open.</summary>
internal sealed record SealDraft(string? Reason);

/// <summary>Who signs which hash.</summary>
internal sealed record SignatureDraft(string Sha256, string Name, string Role, string Organisation);

/// <summary>A seal as it is sent.</summary>
/// <param name="Sha256">Hash of the text.</param>
/// <param name="Text">The sealed text.</param>
/// <param name="OpenReason">Why it was sealed with something open.</param>
/// <param name="By">Who sealed it.</param>
/// <param name="At">When.</param>
/// <param name="Signatures">Who signed.</param>
/// <param name="Problems">What does not fit any more; empty when all does.</param>
internal sealed record SealShape(string Sha256, string Text, string OpenReason, string By, DateTime At, IReadOnlyList<Signature> Signatures, IReadOnlyList<string> Problems);

/// <summary>A pair of photographs of a check.</summary>
internal sealed record PairOfCheck(Guid Baseline, Guid Later, string? Light, Guid? RunId, RunState? RunState);

/// <summary>States of condition, checks against an earlier one, seals and signatures.</summary>
internal static class ChecksApi
{
    public static void MapChecks(this RouteGroupBuilder api)
    {
        api.MapWritten("states", studio => new ConditionStates(studio));
        api.MapPost("/states/{id:guid}/checks", Start).WithSummary("Starts a check against a state: its findings are carried over, each to be answered").Produces<WrittenShape<ConditionStateContent>>(StatusCodes.Status201Created);
        api.MapPut("/states/{id:guid}/entries/{findingId:guid}", Answer).WithSummary("Answers one finding; If-Match names the state's revision").Produces<WrittenShape<ConditionStateContent>>();
        api.MapGet("/states/{id:guid}/delta", (Guid id, OpenStudio studio) => new CheckDelta(studio).Of(id)).WithSummary("What is open, new, changed, gone and as before, with areas before and after");
        api.MapGet("/states/{id:guid}/pairs", Pairs).WithSummary("Photographs of a check with those of its baseline in the same light, and the runs that compare them");
        api.MapPost("/states/{id:guid}/compare", (Guid id, OpenStudio studio, JobHost jobs) => Results.Accepted(null, Compare(id, studio, jobs))).WithSummary("Compares every pair that is not compared yet").Produces<IReadOnlyList<RunAsked>>(StatusCodes.Status202Accepted);
        api.MapGet("/states/{id:guid}/open", (Guid id, OpenStudio studio) => new Sealing(studio).Open(id)).WithSummary("What stands in the way of sealing without a reason");
        api.MapGet("/states/{id:guid}/seal", Seal).WithSummary("The sealed text, its hash, the signatures, and what does not fit any more").Produces<SealShape>();
        api.MapPost("/states/{id:guid}/seal", (Guid id, SealDraft draft, OpenStudio studio, HttpRequest request) =>
        {
            new Sealing(studio).Seal(id, IfMatch.Revision(request), draft.Reason ?? "", Environment.UserName);
            return Seal(id, studio);
        }).WithSummary("Seals a state; If-Match names its revision").Produces<SealShape>();
        api.MapPost("/states/{id:guid}/signatures", (Guid id, SignatureDraft draft, OpenStudio studio) =>
            Results.Json(new Sealing(studio).Sign(id, draft.Sha256, draft.Name, draft.Role, draft.Organisation), statusCode: StatusCodes.Status201Created)).WithSummary("Signs the sealed text with this hash").Produces<Signature>(StatusCodes.Status201Created);
    }

    /// <summary>Queues a check's comparisons and hands them to the background.</summary>
    public static IReadOnlyList<RunAsked> Compare(Guid stateId, OpenStudio studio, JobHost jobs)
    {
        var runs = new ConditionChecks(studio).Compare(stateId, Environment.UserName);
        foreach (var run in runs.Where(r => r.State == RunState.Queued)) jobs.Enqueue(run.Id);
        return [.. runs.Select(r => new RunAsked(r.Id))];
    }

    private static IResult Start(Guid id, CheckDraft draft, OpenStudio studio, HttpResponse response) =>
        WrittenApi.Answer(new ConditionChecks(studio).Start(id, draft.Name, draft.Occasion, draft.On, draft.Place ?? "", Environment.UserName), response, StatusCodes.Status201Created);

    private static IResult Answer(Guid id, Guid findingId, StateEntry entry, OpenStudio studio, HttpRequest request, HttpResponse response) =>
        WrittenApi.Answer(new ConditionChecks(studio).Answer(id, IfMatch.Revision(request), entry with { FindingId = findingId }, Environment.UserName), response);

    private static IReadOnlyList<PairOfCheck> Pairs(Guid id, OpenStudio studio) =>
        [.. new ConditionChecks(studio).Pairs(id).Select(p => new PairOfCheck(p.Baseline.Id, p.Later.Id, p.Later.Light, p.Run?.Id, p.Run?.State))];

    private static IResult Seal(Guid id, OpenStudio studio) => new Sealing(studio).Find(id) is { } seal
        ? Results.Json(new SealShape(seal.Sha256, seal.Text, seal.OpenReason, seal.By, seal.At, seal.Signatures, new Sealing(studio).Verify(id)))
        : throw new Imaging.InputProblem("state-not-sealed", id.ToString(), "The state is not sealed.", "Seal it first.");
}
