using Sandarac.Studio.Documents.Model;
using Sandarac.Studio.Documents.Phrasing;
using Sandarac.Studio.Record;
using Sandarac.Studio.Treatment;

namespace Sandarac.Studio.Documents.Building;

/// <summary>In what the treatment departed from what was approved first: later approvals, steps that depart or were urgent, what entries say themselves.</summary>
internal static class VariationList
{
    public static IReadOnlyList<Prose> Of(Draft draft) => [.. Superseded(draft), .. Steps(draft), .. Entries(draft)];

    /// <summary>Steps that differ between what was approved and a later option: "Varnish (changed), Losses (left out)"; a stroke for none.</summary>
    public static string Steps(Draft draft, ProposalOption approved, ProposalOption later) =>
        string.Join(", ", ProposalDifference.Between(approved, later).Where(d => d.Change != StepChange.Same).Select(d => $"{(d.Later ?? d.Approved)!.Name} ({draft[Word(d.Change)]})").DefaultIfEmpty("-"));

    private static IEnumerable<Prose> Superseded(Draft draft)
    {
        var treatment = draft.Treatment.Value;
        foreach (var later in treatment.Proposals.Where(p => p.Content.SupersedesId is not null && treatment.Approvals.ContainsKey(p.Id)))
        {
            var (earlier, approval) = (treatment.Proposals.FirstOrDefault(p => p.Id == later.Content.SupersedesId), treatment.Approvals[later.Id]);
            if (earlier is null || treatment.Mandate.Chosen(earlier.Id) is not { } before || treatment.Mandate.Chosen(later.Id) is not { } after) continue;
            yield return draft.Phrases.Of(Phrase.VariationSuperseded, earlier.Content.Title, later.Content.Title, approval.Custodian, draft.Phrases.Date(approval.At), Steps(draft, before, after));
        }
    }

    private static IEnumerable<Prose> Steps(Draft draft) => from progress in draft.Treatment.Value.Steps
                                                            let step = progress.Step.Content
                                                            let standing = draft.Treatment.Value.Mandate.Of(step)
                                                            where standing != StepStanding.Approved
                                                            select (Prose)(step.UrgentReason.Length > 0 ? draft.Phrases.Of(Phrase.VariationUrgent, step.Name, step.UrgentReason) : draft.Phrases.Of(standing == StepStanding.Departs ? Phrase.VariationDeparts : Phrase.VariationNotApproved, step.Name));

    private static IEnumerable<Prose> Entries(Draft draft) => draft.Treatment.Value.Entries.Where(e => e.Content.Departure.Length > 0)
        .Select(e => (Prose)draft.Phrases.Of(Phrase.EntrySays, draft.Phrases.Date(e.Content.On!.Value), draft.Treatment.Value.StepOf(e), e.Content.Departure));

    private static Phrase Word(StepChange change) => change switch { StepChange.Changed => Phrase.StepChanged, StepChange.Added => Phrase.StepAdded, _ => Phrase.StepLeftOut };
}
