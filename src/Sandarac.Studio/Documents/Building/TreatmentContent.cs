using Sandarac.Studio.Record;
using Sandarac.Studio.Treatment;

namespace Sandarac.Studio.Documents.Building;

/// <summary>What documents say of a painting's treatment, read from the record in one go.</summary>
internal sealed record TreatmentContent(IReadOnlyList<Proposal> Proposals, IReadOnlyDictionary<Guid, ProposalApproval> Approvals, Mandate Mandate, IReadOnlyList<StepProgress> Steps, IReadOnlyList<LogEntry> Entries, IReadOnlyDictionary<Guid, string> Zones)
{
    public static TreatmentContent Read(OpenStudio studio, Guid paintingId) => new(new Proposals(studio).Of(paintingId), new Approvals(studio).Of(paintingId).ToDictionary(a => a.ProposalId), new TreatmentSteps(studio).MandateOf(paintingId),
        new TreatmentProgress(studio).Of(paintingId), new TreatmentLog(studio).ByDay(paintingId), new Zones(studio).Of(paintingId).ToDictionary(z => z.Id, z => z.Name));

    /// <summary>Proposals that no approved one supersedes.</summary>
    public IEnumerable<Proposal> Standing => Proposals.Where(p => !Approvals.ContainsKey(p.Id) || Mandate.InForce.Contains(p.Id));

    /// <summary>Steps that are retouching, or all others: what was added is never mixed with what was taken off.</summary>
    public IReadOnlyList<StepProgress> StepsOf(bool isRetouching) => [.. Steps.Where(s => s.Step.Content.Kind == StepKind.Retouching == isRetouching)];

    /// <summary>Entries of some steps.</summary>
    public IReadOnlyList<LogEntry> EntriesOf(IReadOnlyList<StepProgress> steps) => [.. Entries.Where(e => steps.Any(s => s.Step.Id == e.Content.StepId))];

    /// <summary>What the step of an entry is called.</summary>
    public string StepOf(LogEntry entry) => Steps.FirstOrDefault(s => s.Step.Id == entry.Content.StepId)?.Step.Content.Name ?? "";
}
