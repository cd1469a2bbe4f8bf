using Sandarac.Studio;
using Sandarac.Studio.Record;

namespace Sandarac.Cli.Demo;

/// <summary>What was seen before the treatment, each with what it rests on, and the condition that these findings make up.</summary>
internal static class StoryFindings
{
    private static readonly DateOnly SeenOn = new(2024, 3, 18), StateOn = new(2024, 4, 2);

    public static void Write(OpenStudio studio, Guid paintingId)
    {
        var (findings, zones, seen) = (new Findings(studio), new StoryZones(studio, paintingId), new Seen(studio, paintingId));
        Finding[] written = [.. All(zones, seen).Select(f => findings.Once(paintingId, f with { Author = Story.Conservator, SeenOn = SeenOn, Interpretation = $"{f.Interpretation} {Story.Invented}" }, c => c.Observation))];
        new ConditionStates(studio).Once(paintingId, new ConditionStateContent
        {
            Name = "before treatment", Occasion = Occasion.BeforeTreatment, On = StateOn, Place = $"studio of the {Story.Owner}", Photographs = [seen.Photograph("VIS_01.tif")], Note = Story.Invented,
            Entries = [.. written.Where(f => f.DeletedAt is null).Select(f => new StateEntry(f.Id, Standing.AsBefore, ""))],
        }, s => s.Name);
    }

    private static IEnumerable<FindingContent> All(StoryZones zones, Seen seen) =>
    [
        new()
        {
            Observation = "In ultraviolet a patch in the sunlit cloud is dark, with short parallel hatches; in visible light it is a shade too dark.", Interpretation = "A retouching on top of all varnish, over a filled loss.",
            Confidence = Certainty.Certain, Term = "later addition/retouching", Zones = [zones.CloudRetouching], Evidence = [seen.In("UVL_01.tif", "the patch is dark"), seen.Sample("S1", "a dull layer on top of the varnish")],
        },
        new()
        {
            Observation = "Six more patches are dark in ultraviolet in the same way, in the sky, on the hull and along the edges.", Interpretation = "Retouchings of the same campaign.",
            Confidence = Certainty.Probable, Term = "later addition/retouching", Zones = [zones.OtherRetouchings], Evidence = [seen.In("UVL_01.tif", "dark and unveiled")],
        },
        new()
        {
            Observation = "Four patches are dark under a faint greenish veil; two of them no longer match what surrounds them.", Interpretation = "Older retouchings, between the two coats of varnish.",
            Confidence = Certainty.Probable, Term = "later addition/discoloured retouching", Zones = [zones.OldRetouchings], Evidence = [seen.In("UVL_01.tif", "dark, but veiled")],
        },
        new()
        {
            Observation = "The whole face luminesces greenish, more along the lower edge; whites look cream.", Interpretation = "An aged natural-resin varnish, consistent with the luminescence.",
            Confidence = Certainty.Probable, Term = "varnish/discoloured varnish", Severity = "moderate", SeverityDefinition = "moderate: colours are altered, every form can still be read", Evidence = [seen.In("UVL_01.tif", "greenish all over"), seen.In("VIS_01.tif", "yellowed lights")],
        },
        new()
        {
            Observation = "A window in the left sky luminesces weakly, with a swollen, brighter rim.", Interpretation = "A trial cleaning that was given up, and varnished over.",
            Confidence = Certainty.Probable, Term = "varnish/residue", Zones = [zones.CleaningWindow, zones.TideLine], Evidence = [seen.In("UVL_01.tif", "weaker inside, brighter at the rim")],
        },
        new()
        {
            Observation = "In infrared and in the X-ray plates a small boat lies under the sand at the lower right.", Interpretation = "A boat that the painter gave up and covered.",
            Confidence = Certainty.Certain, Term = "paint/pentimento", Zones = [zones.Skiff], Evidence = [seen.In("IR_01.tif", "dark lines of a hull"), seen.In("XR_plate4.tif", "a light shape"), seen.Sample("S2", "white and black paint under the sand")],
        },
        new()
        {
            Observation = "In infrared the ridges of a finger are seen in the sand at the lower left.", Interpretation = "The painter, or someone in the workshop, touched the wet paint.",
            Confidence = Certainty.Possible, Term = "paint/fingerprint", Zones = [zones.Fingerprint], Evidence = [seen.In("IR_01.tif", "dark ridges, half a millimetre apart")],
        },
        new()
        {
            Observation = "The X-ray plates show three fixed bars along the grain and four battens across.", Interpretation = "The panel was thinned and cradled.",
            Confidence = Certainty.Certain, Term = "support-panel/cradle", Evidence = [seen.In("XR_plate1.tif", "bars and battens")],
        },
    ];

    /// <summary>What a finding may name: photographs by their files, samples by their numbers.</summary>
    private sealed class Seen(OpenStudio studio, Guid paintingId)
    {
        private readonly Dictionary<string, Guid> _photographs = Files(studio, paintingId);

        public Guid Photograph(string file) => _photographs[file];

        public Evidence In(string file, string note) => new(EvidenceKind.Photograph, Photograph(file), note);

        public Evidence Sample(string number, string note) => new(EvidenceKind.Sample, new Samples(studio).First(paintingId, s => s.Number == number)!.Id, note);

        private static Dictionary<string, Guid> Files(OpenStudio studio, Guid paintingId)
        {
            using var db = studio.CreateDb();
            return db.Photographs.Where(p => p.PaintingId == paintingId).AsEnumerable().DistinctBy(p => p.FileName).ToDictionary(p => p.FileName, p => p.Id);
        }
    }
}
