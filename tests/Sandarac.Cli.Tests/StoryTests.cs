using Microsoft.EntityFrameworkCore;
using Sandarac.Analysis.Rings.Dating;
using Sandarac.Cli.Demo;
using Sandarac.Imaging.Geometry;
using Sandarac.Materials.Dating;
using Sandarac.Specimen;
using Sandarac.Studio;
using Sandarac.Studio.Cleaning;
using Sandarac.Studio.Datings;
using Sandarac.Studio.Decisions;
using Sandarac.Studio.Record;
using Sandarac.Studio.Rings;
using Sandarac.Studio.Treatment;

namespace Sandarac.Cli.Tests;

/// <summary>The decisions that the demonstration shows: the pages are filled, nothing is doubled, and what follows is what the sources say.</summary>
public sealed class StoryTests(ExaminedSpecimen specimen) : IClassFixture<ExaminedSpecimen>
{
    private Guid Id => specimen.PaintingId;

    [Fact]
    public void Every_page_of_decisions_has_something_to_show()
    {
        var studio = specimen.Told;
        Assert.Equal((StoryIdentity.DateFrom, StoryIdentity.DateTo), (new Identity(studio).Of(Id).Identity.DateFrom, new Identity(studio).Of(Id).Identity.DateTo));
        Assert.Equal(8, new Findings(studio).Of(Id).Count);
        Assert.Equal(8, Assert.Single(new ConditionStates(studio).Of(Id)).Content.Entries.Count);
        Assert.Equal(["S1", "S2"], new Samples(studio).Of(Id).Select(s => s.Content.Number));
        Assert.NotEmpty(new SectionLayers(studio).Of(Id));
        Assert.Equal(5, new MaterialsFound(studio).Of(Id).Count);
        Assert.Equal(3, new RingSeriesRecords(studio).Of(Id).Count);
        Assert.All(new RingReferences(studio).All(), r => Assert.StartsWith("Invented", r.Name, StringComparison.Ordinal));
        Assert.Equal(8, new CleaningTests(studio).Of(Id).Count);
        Assert.Equal(2, Assert.Single(new Proposals(studio).Of(Id)).Content.Options.Count);
        Assert.Contains("(invented)", Assert.Single(new Approvals(studio).Of(Id)).Custodian, StringComparison.Ordinal);
        Assert.Equal(5, new TreatmentSteps(studio).Of(Id).Count);
        Assert.Equal(7, new TreatmentLog(studio).ByDay(Id).Count);
        Assert.Equal(6, new StudioShelf(studio).Items().Count);
    }

    [Fact]
    public void Everything_that_a_person_might_have_written_says_that_it_is_invented()
    {
        var studio = specimen.Told;
        using var db = studio.CreateDb();
        Assert.All(db.WrittenChanges.AsNoTracking().AsEnumerable(), c => Assert.Contains("(invented)", c.By, StringComparison.Ordinal));
        // A run's own words stand in a layer before a person names it.
        string[] contents = [.. db.WrittenChanges.AsNoTracking().AsEnumerable().GroupBy(c => c.SubjectId).Select(g => g.MaxBy(c => c.Revision)!.Content)];
        Assert.All(contents.Where(c => !c.Contains("runLayer", StringComparison.OrdinalIgnoreCase) && !c.Contains("proposedStepId", StringComparison.OrdinalIgnoreCase)), c => Assert.Contains("invented", c, StringComparison.OrdinalIgnoreCase));
        Assert.All(db.Zones.AsNoTracking().Where(z => z.RunId == null).AsEnumerable(), z => Assert.Equal(Story.Invented, z.Note));
    }

    [Fact]
    public void A_second_start_doubles_nothing_and_leaves_what_a_person_changed()
    {
        using var folder = new TemporaryFolder();
        using var studio = specimen.CopyOfTold(folder);
        var (tests, findings) = (new CleaningTests(studio), new Findings(studio));
        var (changed, removed) = (tests.Of(Id)[0], findings.Of(Id)[^1]);
        tests.Change(changed.Id, changed.Revision, changed.Content with { Note = "looked at again", X = 190 }, "marta");
        findings.Delete(removed.Id, removed.Revision, "marta");
        var (samples, sample) = (new Samples(studio), new Samples(studio).Of(Id)[0]);
        samples.Change(sample.Id, sample.Revision, sample.Content with { Number = "1/24" }, "marta");
        var (zones, zone) = (new Zones(studio), new Zones(studio).Of(Id).First(z => z.Name == "flats"));
        zones.Delete(zone.Id, zone.Revision);
        var before = Rows(studio);
        Story.Write(studio, Id, (_, _) => { }, TestContext.Current.CancellationToken);
        Assert.Equal(before, Rows(studio));
    }

    [Fact]
    public void A_start_that_was_stopped_anywhere_goes_on()
    {
        using var folder = new TemporaryFolder();
        using var studio = specimen.Copy(folder);
        // Stopped before the second part, then before the third, and so on until it is not stopped any more.
        for (var (reached, isDone) = (1, false); !isDone; reached++)
        {
            using var stop = new CancellationTokenSource();
            var parts = 0;
            try
            {
                Story.Write(studio, Id, (_, _) => { if (parts++ == reached) stop.Cancel(); }, stop.Token);
                isDone = true;
            }
            catch (OperationCanceledException)
            {
            }
        }
        Assert.Equal(Rows(specimen.Told), Rows(studio));
    }

    /// <summary>Rutile from 1938 and Prussian blue from 1704 (table of pigments, with the sources of each row) lie after 1660; smalt, lead-tin yellow and lead white were in use. What is later lies in a later layer.</summary>
    [Fact]
    public void Later_paint_is_told_by_its_materials()
    {
        var studio = specimen.Told;
        var dated = new DatingDesk(studio).Of(Id);
        Assert.Equal([DatingVerdict.LaterThan, DatingVerdict.LaterThan, DatingVerdict.Consistent, DatingVerdict.Consistent, DatingVerdict.Consistent], dated.Select(d => d.Check!.Verdict));
        Assert.Contains($"{1938 - 1660} years after", dated[0].Check!.Reason, StringComparison.Ordinal);
        Assert.Contains($"{1704 - 1660} years after", dated[1].Check!.Reason, StringComparison.Ordinal);
        Assert.StartsWith("Its layer is later, which agrees.", dated[0].Placed, StringComparison.Ordinal);
        // The elements that were drawn, and none beside.
        Assert.Equal(["Ca", "Fe", "Pb", "Ti", "Zn"], Assert.Single(new MeasuredSpectra(studio).Of(Id)).Content.Elements.Select(e => e.Symbol).Order(StringComparer.Ordinal));
    }

    /// <summary>The boards are dated where they were drawn, by both stands; felling after seven rings of sapwood at least (Klein 1998: 7 or 9). A batten of 34 rings has no position with 40 common years.</summary>
    [Fact]
    public void The_panel_is_dated_and_the_short_batten_is_not()
    {
        var studio = specimen.Told;
        var series = new RingSeriesRecords(studio).Of(Id).ToDictionary(s => s.Content.Name);
        Assert.Equal(1622 - 179 + 1, series["LEFT"].Content.FirstYear);
        RingDating Dated(string name) => new RingDatingAsk([.. new RingReferences(studio).All().Select(r => r.Id)], RingTransformKind.BailliePilcher, TConvention.Pairs, MasterMean.Biweight, null, "germany-netherlands", "oak-16-17").Date(studio, series[name].Id);
        Assert.Equal((DatingStrength.Agreed, 1619, 1626), (Dated("RIGHT").Dating.Strength, Dated("RIGHT").Dating.LastRing!.Value, Dated("RIGHT").Felling!.Earliest));
        Assert.Equal(DatingStrength.NoDate, Dated("BATTEN").Dating.Strength);
    }

    /// <summary>Sixth test: 45 s for 30, paint on the swab, the painter's paint softened. Eighth: planned, dark, milder than the sixth that was made before it.</summary>
    [Fact]
    public void The_test_that_went_further_is_flagged_and_the_plan_says_what_it_lacks()
    {
        var studio = specimen.Told;
        var tests = new CleaningTests(studio).Of(Id);
        Assert.Equal([6], tests.Where(t => TestFlags.Of(t.Content).Count > 0).Select(t => t.Content.Number));
        Assert.Equal(["touched-original", "swab-took-paint", "longer-than-planned"], TestFlags.Of(tests[5].Content).Select(f => f.Code));
        Assert.Contains("not-mildest-first", PlanGaps.Of(tests).Select(g => g.Code));
        Assert.All([tests[1], tests[5], tests[7]], t => Assert.True(t.Content.Passage == Passage.Dark && IsOnHull(new Point2(t.Content.X!.Value, t.Content.Y!.Value))));
    }

    /// <summary>The sky is cleaned, 232 of 412 mm; what is left takes about as long as its area at the mean pace of the log.</summary>
    [Fact]
    public void Progress_and_the_hours_that_are_left_follow_from_the_log()
    {
        var studio = specimen.Told;
        var progress = new TreatmentProgress(studio).Of(Id).Single(p => p.Step.Content.Operation == StoryProposal.VarnishOff);
        Assert.Equal(232.0 / 412, progress.Days[^1].Share, 3);
        var estimate = new WorkEstimates(studio).OfStep(progress.Step.Id)!;
        var hours = 518 * (412 - 232) / 100.0 * progress.Days[^1].Hours / (518 * 232 / 100.0);
        Assert.InRange(hours, estimate.Hours!.Low, estimate.Hours.High);
        Assert.Empty(new Approvals(studio).Verify(new Proposals(studio).Of(Id)[0].Id));
    }

    private static bool IsOnHull(Point2 p)
    {
        var isIn = false;
        foreach (var (a, b) in SpecimenPlaces.Hull.Zip([.. SpecimenPlaces.Hull.Skip(1), SpecimenPlaces.Hull[0]]))
            if (a.Y > p.Y != b.Y > p.Y && p.X < a.X + (p.Y - a.Y) / (b.Y - a.Y) * (b.X - a.X)) isIn = !isIn;
        return isIn;
    }

    private static (int Written, int Zones, int Approvals, int References, int Shelf, int Runs) Rows(OpenStudio studio)
    {
        using var db = studio.CreateDb();
        return (db.WrittenChanges.Count(), db.ZoneChanges.Count(), db.ProposalApprovals.Count(), db.ReferenceChronologies.Count(), db.ShelfItems.Count(), db.Runs.Count());
    }
}
