using Sandarac.Studio;
using Sandarac.Studio.Record;
using Sandarac.Studio.Treatment;

namespace Sandarac.Cli.Demo;

/// <summary>A proposal of two ways; the custodian approved one on conditions.</summary>
internal static class StoryProposal
{
    /// <summary>Operations by which paces are logged and compared: keys of terms.</summary>
    public const string DirtOff = "clean/aqueous clean", OverpaintOff = "clean/overpaint removal", VarnishOff = "clean/varnish removal";

    public static void Write(OpenStudio studio, Guid paintingId)
    {
        var (proposals, approvals) = (new Proposals(studio), new Approvals(studio));
        var written = proposals.Once(paintingId, Content(new StoryZones(studio, paintingId)), p => p.Title);
        // What a person changed or took out since is hers to have approved.
        if (written is not { Revision: 1 } || approvals.Find(written.Id) is not null) return;
        approvals.Approve(written.Id, written.Revision, written.Content.AdvisedId!.Value, new(Story.Custodian, "keeper of paintings", Story.Owner), "signed letter of 29 April 2024, invented for the demonstration",
            "The flats only after a test on the dark passages has succeeded. Stop when a swab shows colour.", Story.Conservator);
    }

    private static ProposalContent Content(StoryZones zones)
    {
        var dirt = Step("Take off surface dirt", StepKind.Cleaning, DirtOff, [], $"{StoryShelf.Citrate}; water", "Water in open cracks: swabs are nearly dry.", "");
        ProposalOption whole = new(Guid.CreateVersion7(), "Clean and retouch", "The painter's colours and the depth of the sky are to be seen again; losses are to be closed and told from the original at close range.",
        [
            dirt,
            Step("Take off the retouchings over the varnish", StepKind.Cleaning, OverpaintOff, [zones.CloudRetouching, zones.OtherRetouchings], "ethanol + isooctane 40:60, in a gel under film", "The dark passages below two of them were not tested yet.", "What is taken off cannot be put back."),
            Step("Reduce the varnish", StepKind.Cleaning, VarnishOff, [], "ethanol + isooctane 40:60, rolled swabs", "Browns of the hull were touched by acetone: no acetone, dark passages last and after a test of their own.", "What is taken off cannot be put back."),
            Step("Retouch the losses", StepKind.Retouching, "integrate/inpainting", [zones.CloudRetouching, zones.OldRetouchings], "pigments in urea-aldehyde resin, over an isolating varnish", "Colours may change with time.", ""),
            Step("Varnish", StepKind.Varnishing, "coat/varnishing", [], "urea-aldehyde resin in isooctane with arenes, sprayed", "Gloss on raised paint.", ""),
        ], new(60, 95, $"pace of the cleaning tests, and the conservator's experience. {Story.Invented}"), new(5400, 8600, $"90 an hour. {Story.Invented}"), "EUR");
        ProposalOption least = new(Guid.CreateVersion7(), "Take off dirt alone", "The surface is to be clean; varnish and retouchings stay as they are.", [dirt], new(6, 10, $"pace of the cleaning tests. {Story.Invented}"), new(540, 900, $"90 an hour. {Story.Invented}"), "EUR");
        return new ProposalContent
        {
            Title = "Treatment 2024", Reason = $"The varnish has yellowed and the retouchings no longer match. {Story.Invented}", Options = [whole, least], AdvisedId = whole.Id,
            Advice = "The tests show that the varnish can be reduced on light passages without touching the paint; the dark ones are tested before anything is done there.",
        };
    }

    private static ProposedStep Step(string name, StepKind kind, string operation, IReadOnlyList<Guid> zones, string materials, string risks, string irreversible) => new(Guid.CreateVersion7(), name, kind, operation, zones, materials, risks, irreversible);
}
