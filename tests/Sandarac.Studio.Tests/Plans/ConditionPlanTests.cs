using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;
using Sandarac.Studio.Record;
using Sandarac.Studio.Tests.Support;

namespace Sandarac.Studio.Tests.Plans;

public sealed class ConditionPlanTests(PostgresServer server)
{
    /// <summary>What was drawn anew after treatment leaves the plan of the state before it as it was, until someone records that state again.</summary>
    [Theory, EachDatabase]
    public void A_state_shows_findings_and_zones_as_they_stood_when_it_was_recorded(Database database)
    {
        using var records = new PlanRecords(database, server);
        var zone = records.Zone(PlanRecords.Box(10, 10, 30, 30));
        var finding = records.Finding("paint/loss", zone);
        var before = records.State("before treatment", (finding, Standing.AsBefore));
        Assert.Equal(0, records.Plans.Of(records.Painting.Id, before.Id).ChangedSince);
        records.Reshape(zone, PlanRecords.Box(10, 10, 20, 20));
        new Studio.Findings(records.Studio).Change(finding.Id, 1, finding.Content with { Term = "later addition/fill" }, PlanRecords.User);
        var plan = records.Plans.Of(records.Painting.Id, before.Id);
        Assert.Equal((400, "paint/loss", 2), (plan.Findings[0].Zones[0].Geometry.Area, plan.Findings[0].Content.Term, plan.ChangedSince));
        Assert.Equal((100, "later addition/fill"), (records.Now.Findings[0].Zones[0].Geometry.Area, records.Now.Findings[0].Content.Term));
        new ConditionStates(records.Studio).Change(before.Id, 1, before.Content, PlanRecords.User);
        plan = records.Plans.Of(records.Painting.Id, before.Id);
        Assert.Equal((100, 0), (plan.Findings[0].Zones[0].Geometry.Area, plan.ChangedSince));
    }

    [Fact]
    public void Findings_and_zones_that_were_deleted_later_stay_in_the_states_that_had_them()
    {
        using var records = new PlanRecords();
        var zone = records.Zone(PlanRecords.Box(10, 10, 30, 30));
        var finding = records.Finding("paint/loss", zone);
        var before = records.State("before", (finding, Standing.AsBefore));
        new Zones(records.Studio).Delete(zone.Id, 1);
        new Studio.Findings(records.Studio).Delete(finding.Id, 1, PlanRecords.User);
        Assert.Single(Assert.Single(records.Plans.Of(records.Painting.Id, before.Id).Findings).Zones);
        Assert.Empty(records.Now.Findings);
        new Studio.Findings(records.Studio).Restore(finding.Id, null, PlanRecords.User);
        Assert.Empty(Assert.Single(records.Now.Findings).Zones);
    }

    /// <summary>A sealed state is what was signed: it shows its zones as they stood at the seal.</summary>
    [Fact]
    public void A_sealed_state_shows_what_stood_when_it_was_sealed()
    {
        using var records = new PlanRecords();
        var zone = records.Zone(PlanRecords.Box(10, 10, 30, 30));
        var state = records.State("outgoing", (records.Finding("paint/loss", zone), Standing.AsBefore));
        records.Reshape(zone, PlanRecords.Box(10, 10, 20, 20));
        using (var db = records.Studio.CreateDb())
        {
            db.StateSeals.Add(new StateSeal { StateId = state.Id, Text = "{}", Sha256 = new string('0', 64), OpenReason = "", By = PlanRecords.User, At = DateTime.UtcNow });
            db.SaveChanges();
        }
        records.Reshape(zone, PlanRecords.Box(10, 10, 15, 15));
        var plan = records.Plans.Of(records.Painting.Id, state.Id);
        Assert.Equal((true, 100, 1), (plan.IsSealed, plan.Findings[0].Zones[0].Geometry.Area, plan.ChangedSince));
    }

    /// <summary>Correcting a painting's size moves its zones; a state that was recorded before shows its own zones in corrected millimetres, and none of them counts as changed by that.</summary>
    [Fact]
    public void A_corrected_size_is_applied_to_what_was_drawn_before()
    {
        using var records = new PlanRecords();
        using (var db = records.Studio.CreateDb())
        {
            db.Paintings.Find(records.Painting.Id)!.PlaneMmPerPixel = 0.1;
            db.SaveChanges();
        }
        var (zone, kept) = (records.Zone(PlanRecords.Box(10, 10, 30, 30)), records.Zone(PlanRecords.Box(40, 0, 50, 10)));
        var before = records.State("before", (records.Finding("paint/loss", zone, kept), Standing.AsBefore));
        records.Reshape(zone, PlanRecords.Box(10, 10, 20, 20));
        new Sizing(records.Studio).QueueByDistance(records.Painting.Id, new Point2(0, 0), new Point2(100, 0), 150, PlanRecords.User);
        var plan = records.Plans.Of(records.Painting.Id, before.Id);
        Assert.Equal([900, 225], plan.Findings[0].Zones.Select(z => Math.Round(z.Geometry.Area, 6)));
        Assert.Equal((618, 1), (plan.Painting.WidthMm, plan.ChangedSince));
        var difference = records.Plans.Difference(records.Painting.Id, before.Id, null);
        Assert.Equal(-900 + 225, difference.Findings[0].ChangeMm2, 6);
    }

    [Fact]
    public void A_state_of_another_painting_or_a_painting_without_a_size_has_no_plan()
    {
        using var records = new PlanRecords();
        var state = records.State("before");
        var other = records.Home.AddPainting("Another");
        string CodeOf(Guid painting, Guid? id) => Assert.Throws<InputProblem>(() => records.Plans.Of(painting, id)).Code;
        Assert.Equal("unknown-state", CodeOf(other.Id, state.Id));
        Assert.Equal("unknown-painting", CodeOf(Guid.NewGuid(), null));
        using (var db = records.Studio.CreateDb())
        {
            db.Paintings.Find(other.Id)!.WidthMm = 0;
            db.SaveChanges();
        }
        Assert.Equal("no-size", CodeOf(other.Id, null));
    }
}
