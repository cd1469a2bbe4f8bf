using Microsoft.EntityFrameworkCore;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Treatment;

/// <summary>On what a step rests.</summary>
public enum StepStanding
{
    /// <summary>A custodian approved it as it stands.</summary>
    Approved,

    /// <summary>It departs from what was approved.</summary>
    Departs,

    /// <summary>It belongs to no approved proposal.</summary>
    NotApproved,
}

/// <summary>What custodians approved of a painting: which steps may be carried out, and which depart.</summary>
public sealed class Mandate
{
    private readonly Dictionary<Guid, ApprovedText> _texts;
    private readonly Dictionary<Guid, Guid> _successors;

    private Mandate(IReadOnlyList<ProposalApproval> approvals)
    {
        _texts = approvals.Select(a => (a.ProposalId, Text: Approvals.TextOf(a))).Where(a => a.Text is not null).ToDictionary(a => a.ProposalId, a => a.Text!);
        _successors = _texts.Values.Where(t => t.Proposal.SupersedesId is not null).GroupBy(t => t.Proposal.SupersedesId!.Value).ToDictionary(g => g.Key, g => g.MaxBy(t => t.At)!.ProposalId);
    }

    /// <summary>The approved proposals in force, oldest first: those that no approved one supersedes.</summary>
    public IReadOnlyList<Guid> InForce => [.. _texts.Values.Where(t => !_successors.ContainsKey(t.ProposalId)).OrderBy(t => t.At).Select(t => t.ProposalId)];

    /// <summary>What a step rests on. A step of a proposal that was superseded is measured against the one in force.</summary>
    public StepStanding Of(TreatmentStepContent step) => step.ProposalId is not { } proposal || !_texts.ContainsKey(proposal) ? StepStanding.NotApproved : Approved(step) is { } approved && Fits(step, approved) ? StepStanding.Approved : StepStanding.Departs;

    /// <summary>The chosen option of an approved proposal; null when it is not approved.</summary>
    public ProposalOption? Chosen(Guid proposalId) => _texts.GetValueOrDefault(proposalId)?.Option;

    /// <summary>The step that was approved, as it stands in the proposal in force; null for a step that departs.</summary>
    internal ProposedStep? Approved(TreatmentStepContent step) => step is { ProposalId: { } proposal, ProposedStepId: { } key } && TextInForce(proposal) is { } text ? text.Option.Steps.FirstOrDefault(s => s.Id == key) : null;

    /// <summary>The text in force after a proposal; null when it was never approved.</summary>
    internal ApprovedText? TextInForce(Guid proposalId)
    {
        // A chain that bites its own tail can only come from outside; it ends where it began.
        for (var seen = new HashSet<Guid>(); seen.Add(proposalId) && _successors.TryGetValue(proposalId, out var next); proposalId = next) { }
        return _texts.GetValueOrDefault(proposalId);
    }

    /// <summary>Whether a step is carried out where and as it was approved.</summary>
    internal static bool Fits(TreatmentStepContent step, ProposedStep approved) => step.Kind == approved.Kind && step.Operation == approved.Operation && step.Zones.ToHashSet().SetEquals(approved.Zones);

    /// <summary>What was approved of a painting.</summary>
    internal static Mandate Read(StudioDb db, Guid paintingId) => new([.. db.ProposalApprovals.AsNoTracking().Where(a => db.Proposals.Any(p => p.Id == a.ProposalId && p.PaintingId == paintingId)).OrderBy(a => a.At)]);
}
