using System.Text.Json;
using Sandarac.Imaging;
using Sandarac.Studio;
using Sandarac.Studio.Places;
using Sandarac.Studio.Record;
using Sandarac.Studio.Treatment;
using Sandarac.Studio.Treatment.Drawing;

namespace Sandarac.Server.Api;

/// <summary>Who approves which option of a proposal, and how.</summary>
internal sealed record ApprovalDraft(Guid OptionId, string? Custodian, string? Role, string? Organisation, string? How, string? Conditions);

/// <summary>An approval as it is sent.</summary>
/// <param name="ProposalId">The proposal.</param>
/// <param name="OptionId">The option that was chosen.</param>
/// <param name="Sha256">Hash of the text.</param>
/// <param name="Text">The text that was approved.</param>
/// <param name="Custodian">Who approved.</param>
/// <param name="Role">As what.</param>
/// <param name="Organisation">For whom.</param>
/// <param name="How">How it came.</param>
/// <param name="Conditions">Conditions that were set.</param>
/// <param name="By">Who entered it.</param>
/// <param name="At">When.</param>
/// <param name="Problems">What does not fit any more; empty when the text is the one that was approved.</param>
internal sealed record ApprovalShape(Guid ProposalId, Guid OptionId, string Sha256, string Text, string Custodian, string Role, string Organisation, string How, string Conditions, string By, DateTime At, IReadOnlyList<string> Problems)
{
    public static ApprovalShape Of(ProposalApproval a, IReadOnlyList<string> problems) => new(a.ProposalId, a.OptionId, a.Sha256, a.Text, a.Custodian, a.Role, a.Organisation, a.How, a.Conditions, a.By, a.At, problems);
}

/// <summary>How far a step is, and on what it rests.</summary>
internal sealed record StepProgressShape(Guid StepId, string Name, StepKind Kind, string Operation, StepStanding Standing, ZoneExtent? Target, IReadOnlyList<DayProgress> Days, double? LeftMm2, string? NoAnswer, IReadOnlyList<Warning> Warnings)
{
    public static StepProgressShape Of(StepProgress p, Mandate mandate) => new(p.Step.Id, p.Step.Content.Name, p.Step.Content.Kind, p.Step.Content.Operation, mandate.Of(p.Step.Content), p.Target, p.Days, p.LeftMm2, p.NoAnswer, p.Warnings);
}

/// <summary>A place that was done, or still to do, as GeoJSON has it; mm on the plane, y down.</summary>
internal sealed record PlaceFeature(string Type, JsonElement Geometry, IReadOnlyDictionary<string, string> Properties);

/// <summary>Places of a step on one day, and how those of each state are drawn.</summary>
internal sealed record PlaceCollection(string Type, IReadOnlyList<PlaceFeature> Features, DayProgress? Progress, IReadOnlyDictionary<string, AppearanceShape> Looks);

/// <summary>Proposals, their approval, steps of the treatment, its log, and what follows from them.</summary>
internal static class TreatmentApi
{
    public static void MapTreatment(this RouteGroupBuilder api)
    {
        api.MapWritten("proposals", studio => new Proposals(studio));
        api.MapWritten("treatment-steps", studio => new TreatmentSteps(studio));
        api.MapWritten("log-entries", studio => new TreatmentLog(studio));
        api.MapPost("/proposals/{id:guid}/supersede", (Guid id, OpenStudio studio, HttpResponse response) => WrittenApi.Answer(new Proposals(studio).Supersede(id, Environment.UserName), response, StatusCodes.Status201Created))
            .WithSummary("Begins a proposal that departs from an approved one").Produces<WrittenShape<ProposalContent>>(StatusCodes.Status201Created);
        api.MapGet("/proposals/{id:guid}/difference", Difference).WithSummary("What differs from the approved proposal that it supersedes, step by step");
        api.MapGet("/proposals/{id:guid}/approval", (Guid id, OpenStudio studio) => Approval(id, studio)).WithSummary("The approved text, its hash, and what does not fit any more");
        api.MapPost("/proposals/{id:guid}/approval", Approve).WithSummary("Records a custodian's approval; If-Match names the proposal's revision").Produces<ApprovalShape>(StatusCodes.Status201Created);
        api.MapPost("/proposals/{id:guid}/steps", (Guid id, OpenStudio studio) => new TreatmentSteps(studio).FromApproved(id, Environment.UserName).Select(WrittenApi.Shape).ToList()).WithSummary("Makes the steps of the approved option that are not there yet");
        api.MapGet("/paintings/{id:guid}/treatment/progress", Progress).WithSummary("How far each step is, day by day, and on what it rests");
        api.MapGet("/treatment-steps/{id:guid}/places", Places).WithSummary("Where a step was done at the end of a day and where not yet, as GeoJSON features whose `state` is done or to-do");
        api.MapGet("/treatment-steps/{id:guid}/estimate", (Guid id, OpenStudio studio) => new WorkEstimates(studio).OfStep(id)).WithSummary("How long the rest of a step takes, from the studio's own log; null when its area cannot be measured");
    }

    private static IReadOnlyList<StepDifference> Difference(Guid id, Guid? option, OpenStudio studio)
    {
        var later = new Proposals(studio).Find(id).Content;
        return later.SupersedesId is { } approved && new TreatmentSteps(studio).MandateOf(new Proposals(studio).Find(id).PaintingId).Chosen(approved) is { } chosen
            && later.Options.FirstOrDefault(o => o.Id == (option ?? chosen.Id)) is { } compared ? ProposalDifference.Between(chosen, compared)
            : throw new InputProblem("unknown-option", id.ToString(), "There is nothing to compare: the proposal supersedes no approved one, or has no such option.", "Name one of its options.");
    }

    private static ApprovalShape Approval(Guid id, OpenStudio studio)
    {
        var approvals = new Approvals(studio);
        var problems = approvals.Verify(id);
        return ApprovalShape.Of(approvals.Find(id)!, problems);
    }

    private static IResult Approve(Guid id, ApprovalDraft draft, OpenStudio studio, HttpRequest request)
    {
        var who = new Custodian(draft.Custodian ?? "", draft.Role ?? "", draft.Organisation ?? "");
        return Results.Json(ApprovalShape.Of(new Approvals(studio).Approve(id, IfMatch.Revision(request), draft.OptionId, who, draft.How ?? "", draft.Conditions ?? "", Environment.UserName), []), statusCode: StatusCodes.Status201Created);
    }

    private static IReadOnlyList<StepProgressShape> Progress(Guid id, OpenStudio studio)
    {
        var mandate = new TreatmentSteps(studio).MandateOf(id);
        return [.. new TreatmentProgress(studio).Of(id).Select(p => StepProgressShape.Of(p, mandate))];
    }

    private static PlaceCollection Places(Guid id, DateOnly? day, OpenStudio studio)
    {
        var (places, kind) = (new TreatmentProgress(studio).Places(id, day), new TreatmentSteps(studio).Find(id).Content.Kind);
        return new PlaceCollection("FeatureCollection", [.. Feature(places.Done, "done"), .. Feature(places.ToDo, "to-do")], places.At,
            new Dictionary<string, AppearanceShape> { ["done"] = AppearanceShape.Of(PlacesDrawing.DoneBy(kind), "treatment"), ["to-do"] = AppearanceShape.Of(PlacesDrawing.ToDo, "treatment") });
    }

    private static IEnumerable<PlaceFeature> Feature(string? geometry, string state) => geometry is null ? [] : [new PlaceFeature("Feature", JsonElement.Parse(geometry), new Dictionary<string, string> { ["state"] = state })];
}
