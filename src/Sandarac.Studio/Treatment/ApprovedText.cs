using Sandarac.Studio.Record;

namespace Sandarac.Studio.Treatment;

/// <summary>What is approved: a proposal with its zones as they stand and the option that was chosen, by whom and how, so that the text alone says all that was approved.</summary>
/// <param name="Format">"sandarac treatment approval 1".</param>
/// <param name="Painting">The painting.</param>
/// <param name="ProposalId">The proposal.</param>
/// <param name="Revision">Its revision.</param>
/// <param name="Proposal">What is written of it, all options: what was not chosen was known.</param>
/// <param name="Zones">The zones of its steps.</param>
/// <param name="OptionId">The option that was chosen.</param>
/// <param name="Custodian">Who approved.</param>
/// <param name="Role">As what.</param>
/// <param name="Organisation">For whom.</param>
/// <param name="How">How the approval came.</param>
/// <param name="Conditions">Conditions that were set.</param>
/// <param name="By">Who entered it.</param>
/// <param name="At">When, UTC.</param>
internal sealed record ApprovedText(string Format, SealedPainting Painting, Guid ProposalId, int Revision, ProposalContent Proposal, IReadOnlyList<SealedZone> Zones, Guid OptionId,
    string Custodian, string Role, string Organisation, string How, string Conditions, string By, DateTime At)
{
    public const string FormatName = "sandarac treatment approval 1";

    /// <summary>The option that was chosen.</summary>
    public ProposalOption Option => Proposal.Options.First(o => o.Id == OptionId);

    /// <summary>A proposal as it stands.</summary>
    public static ApprovedText Read(StudioDb db, Proposal proposal, Guid optionId, Custodian custodian, string how, string conditions, string by, DateTime at) => new(FormatName, SealedPainting.Of(db.RequirePainting(proposal.PaintingId)),
        proposal.Id, proposal.Revision, proposal.Content, SealedZone.Read(db, proposal.PaintingId, [.. proposal.Content.Options.SelectMany(o => o.Steps).SelectMany(s => s.Zones)]), optionId,
        custodian.Name, custodian.Role, custodian.Organisation, how, conditions, by, at);
}

/// <summary>Who may decide on the painting.</summary>
/// <param name="Name">Who.</param>
/// <param name="Role">As what: "owner", "keeper of paintings".</param>
/// <param name="Organisation">For whom.</param>
public sealed record Custodian(string Name, string Role, string Organisation);
