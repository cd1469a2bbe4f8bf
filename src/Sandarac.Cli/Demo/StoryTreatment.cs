using Sandarac.Studio;
using Sandarac.Studio.Record;
using Sandarac.Studio.Treatment;

namespace Sandarac.Cli.Demo;

/// <summary>The approved steps and their log so far: the dirt is off, the sky is cleaned, the flats wait for a test.</summary>
internal static class StoryTreatment
{
    public static void Write(OpenStudio studio, Guid paintingId)
    {
        var (steps, log) = (new TreatmentSteps(studio), new TreatmentLog(studio));
        foreach (var proposal in steps.Unmade(paintingId).Where(p => !steps.Of(paintingId).Concat(steps.Removed(paintingId)).Any(s => s.Content.ProposalId == p))) steps.FromApproved(proposal, Story.Conservator);
        var zones = new StoryZones(studio, paintingId);
        foreach (var (operation, entries) in new[] { (StoryProposal.DirtOff, Dirt(zones)), (StoryProposal.OverpaintOff, Overpaint(zones)), (StoryProposal.VarnishOff, Varnish(zones)) })
            if (steps.Of(paintingId).FirstOrDefault(s => s is { Revision: 1 } && s.Content.Operation == operation) is { } step)
                foreach (var entry in entries) log.Once(paintingId, entry with { StepId = step.Id, What = $"{entry.What} {Story.Invented}" }, e => (e.On, e.What));
        End(steps, paintingId);
    }

    private static IEnumerable<LogEntryContent> Dirt(StoryZones zones) =>
    [
        Day(13, Story.Conservator, 4, "Dirt taken off the sky.", zones.Sky) with { Materials = [Citrate(120), new("surface dirt", null, "", "", MaterialUse.Removed)] },
        Day(14, Story.Conservator, 3.5, "Dirt taken off the flats.", [zones.Flats]) with { Materials = [Citrate(100), new("surface dirt", null, "", "", MaterialUse.Removed)] },
    ];

    private static IEnumerable<LogEntryContent> Overpaint(StoryZones zones) =>
    [
        Day(16, Story.Conservator, 1.5, "Retouching in the sunlit cloud taken off in three applications.", [zones.CloudRetouching]) with
        {
            Materials = [Isooctane(12), Ethanol(8), new("retouching, consistent with titanium white", null, "", "", MaterialUse.Removed)], NewlySeen = "The fill below stands proud and covers original paint along its rim.",
        },
    ];

    private static IEnumerable<LogEntryContent> Varnish(StoryZones zones) =>
    [
        Day(15, Story.Conservator, 0.5, "Timed test of the varnish removal.", [zones.TimedPatch]) with { IsTimedTest = true, Materials = [Isooctane(6), Ethanol(4)] },
        Day(21, Story.Conservator, 5, "Varnish reduced in the right part of the sky.", [zones.Sky[2]]) with { Materials = [Isooctane(45), Ethanol(30), Old] },
        Day(22, Story.Conservator, 7.25, "Varnish reduced in the middle of the sky.", [zones.Sky[1]]) with { Materials = [Isooctane(66), Ethanol(44), Old] },
        Day(23, Story.Assistant, 8, "Varnish reduced in the left part of the sky.", [zones.Sky[0]]) with
        {
            Materials = [Isooctane(54), Ethanol(36), Old], Departure = "In the window of the earlier cleaning only the later coat was thinned: little of the aged one was left.",
        },
    ];

    private static void End(TreatmentSteps steps, Guid paintingId)
    {
        if (steps.Of(paintingId).FirstOrDefault(s => s is { Revision: 1, Content.Operation: StoryProposal.DirtOff }) is { } dirt) steps.Change(dirt.Id, 1, dirt.Content with { EndedOn = May(14), Note = Story.Invented }, Story.Conservator);
    }

    private static LogEntryContent Day(int day, string who, double hours, string what, IReadOnlyList<Guid> zones) => new() { On = May(day), Who = who, Hours = hours, What = what, Zones = zones };

    private static DateOnly May(int day) => new(2024, 5, day);

    private static LogMaterial Citrate(double ml) => new(StoryShelf.Citrate, ml, "mL", StoryShelf.CitrateBatch, MaterialUse.Used);

    private static LogMaterial Isooctane(double ml) => new("isooctane", ml, "mL", StoryShelf.IsooctaneBatch, MaterialUse.Used);

    private static LogMaterial Ethanol(double ml) => new("ethanol", ml, "mL", StoryShelf.EthanolBatch, MaterialUse.Used);

    private static LogMaterial Old { get; } = new("aged varnish", null, "", "", MaterialUse.Removed);
}
