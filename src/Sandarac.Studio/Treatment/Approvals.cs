using Microsoft.EntityFrameworkCore;
using Sandarac.Imaging;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Treatment;

/// <summary>Records that a custodian approved one option of a proposal, and tells later whether what was approved is still what stands there.</summary>
public sealed class Approvals(OpenStudio studio)
{
    private const int LongestText = 2000;

    /// <summary>The approval of a proposal; null while nobody approved it.</summary>
    public ProposalApproval? Find(Guid proposalId)
    {
        using var db = studio.CreateDb();
        return Read(db, proposalId);
    }

    /// <summary>A painting's approvals, oldest first.</summary>
    public IReadOnlyList<ProposalApproval> Of(Guid paintingId)
    {
        using var db = studio.CreateDb();
        return [.. db.ProposalApprovals.AsNoTracking().Where(a => db.Proposals.Any(p => p.Id == a.ProposalId && p.PaintingId == paintingId)).OrderBy(a => a.At)];
    }

    /// <summary>Records an approval: the whole proposal with its zones as they stand, as text, and the hash of that text. Neither is changed afterwards.</summary>
    /// <param name="proposalId">The proposal.</param>
    /// <param name="revision">The revision that the custodian read.</param>
    /// <param name="optionId">The option that was chosen.</param>
    /// <param name="custodian">Who approved.</param>
    /// <param name="how">How the approval came: a signed letter, by telephone and confirmed by mail.</param>
    /// <param name="conditions">Conditions that were set; may be empty.</param>
    /// <param name="userName">Who enters it.</param>
    /// <exception cref="InputProblem">"unknown-proposal"; "proposal-changed"; taken out ("proposal-deleted"); approved already ("proposal-approved"); no such option ("unknown-option"); a name, role, organisation or the way is missing ("signature").</exception>
    public ProposalApproval Approve(Guid proposalId, int revision, Guid optionId, Custodian custodian, string how, string conditions, string userName)
    {
        using var db = studio.CreateDb();
        var paintingId = new Proposals(studio).Find(proposalId).PaintingId;
        using var held = db.HoldPainting(paintingId);
        var proposal = db.Proposals.First(p => p.Id == proposalId);
        RequireOpen(db, proposal, revision, optionId);
        var (who, way, set) = (new Custodian(FrozenText.Line("custodian", custodian.Name), FrozenText.Line("role", custodian.Role), FrozenText.Line("organisation", custodian.Organisation)),
            FrozenText.Line("how", how, LongestText), string.IsNullOrWhiteSpace(conditions) ? "" : FrozenText.Line("conditions", conditions.ReplaceLineEndings(" "), LongestText));
        var now = studio.Now;
        var frozen = FrozenText.Of(ApprovedText.Read(db, proposal, optionId, who, way, set, userName, now));
        var approval = new ProposalApproval
        {
            ProposalId = proposalId, OptionId = optionId, Text = frozen.Text, Sha256 = frozen.Sha256, Custodian = who.Name, Role = who.Role, Organisation = who.Organisation, How = way, Conditions = set, By = userName, At = now,
        };
        db.ProposalApprovals.Add(approval);
        db.SaveChanges();
        held.Commit();
        return approval;
    }

    /// <summary>What does not fit any more: the text and its hash, the row and the text, the proposal and the text. Empty when the text is the one that was approved.</summary>
    /// <exception cref="InputProblem">Not approved ("proposal-not-approved").</exception>
    public IReadOnlyList<string> Verify(Guid proposalId)
    {
        using var db = studio.CreateDb();
        var approval = Read(db, proposalId) ?? throw NotApproved(proposalId);
        List<string> problems = [];
        if (!Frozen(approval).IsIntact) problems.Add("The text is not the one whose hash was taken: it was changed after it was approved.");
        if (Parsed(approval) is not { } text) return [.. problems, "The approved text cannot be read."];
        var proposal = db.Proposals.AsNoTracking().First(p => p.Id == proposalId);
        if (text.ProposalId != proposalId || text.Revision != proposal.Revision || CanonicalJson.Of(text.Proposal) != CanonicalJson.Of(proposal.Content)) problems.Add("The proposal in the record is not the one that was approved: the approved text counts.");
        if (text.OptionId != approval.OptionId || text.How != approval.How || text.Conditions != approval.Conditions || (text.Custodian, text.Role, text.Organisation, text.By, text.At) != (approval.Custodian, approval.Role, approval.Organisation, approval.By, approval.At))
            problems.Add("Who approved which option, how, when or on which conditions is not what the approved text says.");
        return problems;
    }

    /// <exception cref="InputProblem">"proposal-not-approved".</exception>
    internal static InputProblem NotApproved(Guid proposalId) => new("proposal-not-approved", proposalId.ToString(), "Nobody has approved this proposal.", "Enter the custodian's approval first.");

    /// <summary>The approved text; null when it is not the one that was approved, or cannot be read any more: nothing rests on it then.</summary>
    internal static ApprovedText? TextOf(ProposalApproval approval) => Frozen(approval).IsIntact ? Parsed(approval) : null;

    private static ApprovedText? Parsed(ProposalApproval approval) => Frozen(approval).Read<ApprovedText>(t => t.Format == ApprovedText.FormatName && t.Proposal.Options.Any(o => o.Id == t.OptionId));

    private static FrozenText Frozen(ProposalApproval approval) => new(approval.Text, approval.Sha256);

    private static ProposalApproval? Read(StudioDb db, Guid proposalId) => db.ProposalApprovals.AsNoTracking().FirstOrDefault(a => a.ProposalId == proposalId);

    private static void RequireOpen(StudioDb db, Proposal proposal, int revision, Guid optionId)
    {
        var title = proposal.Content.Title;
        if (proposal.Revision != revision) throw new InputProblem("proposal-changed", title, "This proposal was changed meanwhile.", "Show the custodian the proposal as it is now.");
        if (proposal.DeletedAt is not null) throw new InputProblem("proposal-deleted", title, "This proposal was taken out.", "Restore it first.");
        if (Read(db, proposal.Id) is { } earlier) throw new InputProblem("proposal-approved", title, $"\"{title}\" was approved by {earlier.Custodian} already.", "Begin one that supersedes it.");
        if (proposal.Content.Options.All(o => o.Id != optionId)) throw new InputProblem("unknown-option", optionId.ToString(), "The proposal has no such option.", "Choose one of its options.");
    }
}
