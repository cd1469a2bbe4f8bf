using Sandarac.Studio.Documents.Model;
using Sandarac.Studio.Documents.Phrasing;
using Sandarac.Studio.Record;
using Sandarac.Studio.Treatment;

namespace Sandarac.Studio.Documents.Building;

/// <summary>What is proposed, with every option, and what a custodian approved of it (AIC Commentary 26: course, materials, time, cost, approval).</summary>
internal static class ProposalSection
{
    public static Section Of(Draft draft)
    {
        Note rule = new(NoteKind.Remark, draft[Phrase.DeviationRule]);
        List<Proposal> standing = [.. draft.Treatment.Value.Standing];
        return standing.Count == 0 ? new Section(draft[Phrase.SectionTreatmentPlan], new Paragraph(draft[Phrase.NoProposal]), rule)
            : new Section(draft[Phrase.SectionTreatmentPlan], [rule, .. Cautions.ForAgents(Agents(standing), draft.Phrases).Select(c => new Note(NoteKind.Caution, c))], [.. standing.Select(p => One(draft, p))]);
    }

    /// <summary>Who approved, how, on which conditions, and whether the text is still the one that was approved.</summary>
    public static IEnumerable<Fact> Approval(Draft draft, Proposal proposal)
    {
        if (!draft.Treatment.Value.Approvals.TryGetValue(proposal.Id, out var approval))
        {
            yield return new Fact(draft[Phrase.Approval], Prose.Of(draft[Phrase.NotApproved], SpanLook.Strong));
            yield break;
        }
        var conditions = approval.Conditions.Length > 0 ? " " + draft.Phrases.Of(Phrase.ApprovalConditions, approval.Conditions) : "";
        yield return new Fact(draft[Phrase.Approval], draft.Phrases.Of(Phrase.ApprovedBy, approval.Custodian, approval.Role, approval.Organisation, approval.How) + conditions);
        var problems = new Approvals(draft.Studio).Verify(proposal.Id);
        yield return new Fact("SHA-256", Prose.Of(approval.Sha256, SpanLook.Code) + $". {draft.Phrases.Of(Phrase.ApprovalEntered, approval.By, draft.Phrases.Time(approval.At))} " + (problems.Count == 0 ? draft[Phrase.ApprovalIntact] : Prose.Of(draft.Phrases.Of(Phrase.ApprovalBroken, string.Join(' ', problems)), SpanLook.Strong)));
    }

    private static IEnumerable<LogMaterial> Agents(IEnumerable<Proposal> proposals) => proposals.SelectMany(p => p.Content.Options).SelectMany(o => o.Steps).Where(s => s.Materials.Length > 0).Select(s => new LogMaterial(s.Materials, null, "", "", MaterialUse.Used));

    private static Section One(Draft draft, Proposal proposal)
    {
        var content = proposal.Content;
        List<Fact> facts = [];
        if (content.Reason.Length > 0) facts.Add(new Fact(draft[Phrase.ProposalReason], content.Reason));
        if (content.Options.FirstOrDefault(o => o.Id == content.AdvisedId) is { } advised) facts.Add(new Fact(draft[Phrase.ProposalAdvised], string.Join(". ", new[] { advised.Name, content.Advice }.Where(t => t.Length > 0))));
        facts.AddRange(Approval(draft, proposal));
        if (content.SupersedesId is { } earlier && draft.Treatment.Value.Mandate.Chosen(earlier) is { } before && content.Options.FirstOrDefault(o => o.Id == before.Id) is { } after) facts.Add(new Fact(draft[Phrase.Variations], VariationList.Steps(draft, before, after)));
        return new Section(content.Title, [new Facts(facts)], [.. content.Options.Select((o, i) => Option(draft, o, i + 1, draft.Treatment.Value.Approvals.GetValueOrDefault(proposal.Id)?.OptionId == o.Id))]);
    }

    private static Section Option(Draft draft, ProposalOption option, int number, bool isChosen)
    {
        List<Block> blocks = [new Facts([new Fact(draft[Phrase.OptionAims], Or(draft, option.Aims)), new Fact(draft[Phrase.TimeEstimate], Range(draft, option.Hours, "h")), new Fact(draft[Phrase.Cost], Range(draft, option.Cost, option.Currency))])];
        blocks.Add(option.Steps.Count == 0 ? new Paragraph(draft[Phrase.NoSteps]) : new Table(draft.Phrases.Of(Phrase.StepsOfOption, option.Name),
            [new Column(draft[Phrase.ColumnStep], Share: 1.6), new Column(draft[Phrase.ColumnWhere]), new Column(draft[Phrase.Materials], Share: 1.5), new Column(draft[Phrase.ColumnRisks], Share: 1.8), new Column(draft[Phrase.ColumnIrreversible], Share: 1.4)],
            [.. option.Steps.Select((s, i) => (IReadOnlyList<Prose>)[Prose.Of($"{i + 1} {s.Name}", SpanLook.Strong) + Prose.Of($"\n{draft[TreatmentSection.Word(s.Kind)]}, {StudioTerms.NameOf(s.Operation)}", SpanLook.Small), TreatmentSection.Where(draft, s.Zones), s.Materials, s.Risks, s.Irreversible])]));
        return new Section(draft.Phrases.Of(isChosen ? Phrase.OptionChosen : Phrase.OptionTitle, number, option.Name), blocks);
    }

    private static Prose Range(Draft draft, GroundedRange? range, string unit) => range is null ? Or(draft, "")
        : draft.Phrases.Of(Phrase.RangeOf, range.Low.ToString("#,0.##", draft.Phrases.Culture), range.High.ToString("#,0.##", draft.Phrases.Culture), unit, range.Basis);

    private static Prose Or(Draft draft, string text) => text.Length > 0 ? text : Prose.Of(draft[Phrase.NotRecorded], SpanLook.Emphasis);
}
