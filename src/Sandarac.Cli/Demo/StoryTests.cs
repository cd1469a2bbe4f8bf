using Sandarac.Imaging.Geometry;
using Sandarac.Specimen;
using Sandarac.Studio;
using Sandarac.Studio.Cleaning;
using Sandarac.Studio.Record;

namespace Sandarac.Cli.Demo;

/// <summary>Cleaning tests on light and dark passages: one went further than planned, one is planned and not done.</summary>
internal static class StoryTests
{
    private static readonly DateOnly First = new(2024, 4, 10), Second = new(2024, 4, 11), Third = new(2024, 4, 12);

    private static readonly IReadOnlyList<AgentPart> Citrate = [new("triammonium citrate", 1), new("water", 99)], Isooctane = [new("isooctane", 100)], Acetone = [new("acetone", 100)],
        Mild = [new("ethanol", 20), new("isooctane", 80)], Middle = [new("ethanol", 40), new("isooctane", 60)];

    public static void Write(OpenStudio studio, Guid paintingId)
    {
        var tests = new CleaningTests(studio);
        foreach (var test in All(new StoryZones(studio, paintingId).CloudRetouching)) tests.Once(paintingId, test with { Note = $"{test.Note} {Story.Invented}".Trim() }, t => (t.X, t.Y));
    }

    private static IEnumerable<CleaningTestContent> All(Guid retouching)
    {
        var patch = SpecimenPlaces.RetouchingsOverVarnish[0];
        yield return Aqueous(new Point2(188, 44), Passage.Light, First) with { OnDirt = TestEffect.Removed, OnVarnish = TestEffect.None, OnOriginal = TestEffect.None, SwabColour = "grey", Verdict = TestVerdict.AsIntended };
        yield return Aqueous(new Point2(248, 300), Passage.Dark, First) with { OnDirt = TestEffect.Removed, OnVarnish = TestEffect.None, OnOriginal = TestEffect.None, SwabColour = "dark grey", Verdict = TestVerdict.AsIntended };
        yield return Solvent(new Point2(500, 100), Passage.Light, Isooctane, Second) with { OnVarnish = TestEffect.None, OnOriginal = TestEffect.None, SwabColour = "clean", UltravioletAfter = "unchanged", Verdict = TestVerdict.TooWeak };
        yield return Solvent(new Point2(500, 140), Passage.Light, Mild, Second) with { OnVarnish = TestEffect.Softened, OnOriginal = TestEffect.None, SwabColour = "faintly yellow", UltravioletAfter = "a little weaker", Verdict = TestVerdict.TooWeak };
        yield return Solvent(new Point2(500, 180), Passage.Light, Middle, Second) with { OnVarnish = TestEffect.Removed, OnOriginal = TestEffect.None, SwabColour = "yellow", SwabTookPaint = false, UltravioletAfter = "the greenish luminescence is gone", Verdict = TestVerdict.AsIntended };
        yield return Solvent(new Point2(372, 292), Passage.Dark, Acetone, Third) with
        {
            Seconds = 45, OnVarnish = TestEffect.Removed, OnOriginal = TestEffect.Softened, SwabColour = "yellow, then brown", SwabTookPaint = true, UltravioletAfter = "gone; the brown is matt at the rim",
            Verdict = TestVerdict.TooStrong, Note = "Stopped when brown appeared.",
        };
        yield return Solvent(new Point2(patch.Left + patch.Width / 2, patch.Top + patch.Height / 2), Passage.Light, Middle, Third) with
        {
            ZoneId = retouching, Aim = CleaningDepth.Overpaint, Carrier = "gel under film, cleared with isooctane", PlannedSeconds = 60, Seconds = 60, OnVarnish = TestEffect.Reduced, OnOverpaint = TestEffect.Removed,
            OnOriginal = TestEffect.None, SwabColour = "grey-white of the retouching", SwabTookPaint = false, UltravioletAfter = "the fill shows, bright", Verdict = TestVerdict.AsIntended,
        };
        yield return Solvent(new Point2(335, 311), Passage.Dark, Middle, null) with { Seconds = null, DoneBy = "", Note = "Planned after the test with acetone, before anything is done to the flats." };
    }

    private static CleaningTestContent Aqueous(Point2 at, Passage passage, DateOnly on) => Spot(at, passage, on) with
    {
        Aim = CleaningDepth.Dirt, AgentKind = AgentKind.Aqueous, Agent = Citrate, AgentNote = $"pH 7.0, batch {StoryShelf.CitrateBatch}", Carrier = "cotton swab, rolled; cleared with water", PlannedSeconds = 40, Seconds = 40, UltravioletAfter = "unchanged but clearer",
    };

    private static CleaningTestContent Solvent(Point2 at, Passage passage, IReadOnlyList<AgentPart> agent, DateOnly? on) => Spot(at, passage, on) with
    {
        Aim = CleaningDepth.Varnish, AgentKind = AgentKind.Solvent, Agent = agent, Carrier = "cotton swab, rolled", PlannedSeconds = 30, Seconds = 30,
    };

    private static CleaningTestContent Spot(Point2 at, Passage passage, DateOnly? on) => new() { X = at.X, Y = at.Y, AreaMm2 = 25, Passage = passage, DoneOn = on, DoneBy = Story.Conservator };
}
