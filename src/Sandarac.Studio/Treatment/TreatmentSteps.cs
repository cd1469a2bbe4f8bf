using Sandarac.Imaging;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Treatment;

/// <summary>Steps of treatments: made from what a custodian approved, or departing from it. A step that is edited away from its approved kind, operation or zones departs from then on.</summary>
public sealed class TreatmentSteps(OpenStudio studio) : WrittenRecords<TreatmentStep, TreatmentStepContent>(studio, "step")
{
    /// <summary>What a painting's steps rest on.</summary>
    /// <exception cref="InputProblem">"unknown-painting".</exception>
    public Mandate MandateOf(Guid paintingId)
    {
        using var db = Studio.CreateDb();
        db.RequirePainting(paintingId);
        return Mandate.Read(db, paintingId);
    }

    /// <summary>Approved proposals in force of which a step is not made yet.</summary>
    /// <exception cref="InputProblem">"unknown-painting".</exception>
    public IReadOnlyList<Guid> Unmade(Guid paintingId)
    {
        var mandate = MandateOf(paintingId);
        var made = Made(mandate, Of(paintingId));
        return [.. mandate.InForce.Where(p => mandate.Chosen(p)!.Steps.Any(s => !made.Contains(s.Id)))];
    }

    /// <summary>Makes the steps of an approved option that are not there yet, in their order.</summary>
    /// <returns>Those that were made.</returns>
    /// <exception cref="InputProblem">"unknown-proposal"; "proposal-not-approved".</exception>
    public IReadOnlyList<TreatmentStep> FromApproved(Guid proposalId, string userName)
    {
        var paintingId = new Proposals(Studio).Find(proposalId).PaintingId;
        using var db = Studio.CreateDb();
        using var held = db.HoldPainting(paintingId);
        var mandate = Mandate.Read(db, paintingId);
        var option = mandate.Chosen(proposalId) ?? throw Approvals.NotApproved(proposalId);
        var made = Made(mandate, db.TreatmentSteps.Where(s => s.PaintingId == paintingId && s.DeletedAt == null));
        TreatmentStep[] steps = [.. option.Steps.Where(s => !made.Contains(s.Id)).Select(s => Add(db, paintingId, Content(proposalId, s), userName))];
        db.SaveChanges();
        held.Commit();
        return steps;
    }

    private protected override TreatmentStep Make(Guid paintingId, DateTime now) => new() { PaintingId = paintingId, CreatedAt = now };

    private protected override void Alongside(StudioDb db, TreatmentStep row)
    {
        if (row.DeletedAt is not null && db.LogEntries.Any(e => e.PaintingId == row.PaintingId && e.DeletedAt == null && e.Content.StepId == row.Id)) throw Wrong("step-has-entries", row.Content.Name, "Work on this step is in the log.", "End the step instead; what was done stays on record.");
        SearchIndex.Put(db, row);
    }

    private protected override TreatmentStepContent Checked(StudioDb db, TreatmentStep row, TreatmentStepContent content)
    {
        if (!Enum.IsDefined(content.Kind)) throw Wrong("step-kind", "kind", "There is no such kind of step.", "Choose one of the list.");
        if (content.EndedOn is { } day && day > Studio.Today) throw Wrong("step-date", "endedOn", "The day on which the step was ended lies in the future.", "Leave it empty while the step goes on.");
        if (content.EndedOn is { } end && db.LogEntries.Any(e => e.Content.StepId == row.Id && e.DeletedAt == null && e.Content.On > end)) throw Wrong("step-date", "endedOn", "The log has work on this step after that day.", "Give the day of its last entry or a later one.");
        foreach (var zone in content.Zones.Distinct()) Relations.RequireZone(db, row.PaintingId, zone);
        var sound = content with { Name = Name("name", content.Name), Operation = Name("operation", content.Operation), Zones = [.. content.Zones.Distinct()], UrgentReason = content.UrgentReason.Trim(), Note = content.Note.Trim() };
        return sound.ProposalId is null ? sound with { ProposedStepId = null } : Attached(Mandate.Read(db, row.PaintingId), sound);
    }

    /// <summary>The approved steps that are made and still stand as they were approved, by their keys.</summary>
    private static HashSet<Guid> Made(Mandate mandate, IEnumerable<TreatmentStep> steps) => [.. steps.Where(s => mandate.Of(s.Content) == StepStanding.Approved).Select(s => mandate.Approved(s.Content)!.Id)];

    /// <summary>With its approved step when it fits it; without one when it departs.</summary>
    private static TreatmentStepContent Attached(Mandate mandate, TreatmentStepContent content)
    {
        var proposal = content.ProposalId!.Value;
        if (mandate.Chosen(proposal) is not { } option) throw Approvals.NotApproved(proposal);
        if (content.ProposedStepId is not { } key) return content;
        if ((mandate.Approved(content) ?? option.Steps.FirstOrDefault(s => s.Id == key)) is not { } approved) throw Wrong("unknown-proposed-step", key.ToString(), "The approved option has no such step.", "Choose one of its steps, or none for a step that departs.");
        return Mandate.Fits(content, approved) ? content : content with { ProposedStepId = null };
    }

    private static TreatmentStepContent Content(Guid proposalId, ProposedStep step) => new() { Name = step.Name, Kind = step.Kind, Operation = step.Operation, Zones = step.Zones, ProposalId = proposalId, ProposedStepId = step.Id };
}
