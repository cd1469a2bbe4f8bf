using Microsoft.EntityFrameworkCore;
using Sandarac.Imaging;
using Sandarac.Studio.Record;
using Sandarac.Studio.Tests.Support;
using Sandarac.Studio.Treatment;

namespace Sandarac.Studio.Tests.Treatment;

public sealed class LogTests(PostgresServer server)
{
    private static string CodeOf(Action act) => Assert.Throws<InputProblem>(act).Code;

    [Theory, EachDatabase]
    public void Steps_come_from_the_approval_once_and_take_entries(Database database)
    {
        using var home = new TreatmentHome(database, server);
        var proposal = home.Approved();
        var steps = home.Steps.FromApproved(proposal.Id, TreatmentHome.User);
        Assert.Equal(["Varnish", "Losses"], steps.Select(s => s.Content.Name));
        Assert.Empty(home.Steps.FromApproved(proposal.Id, TreatmentHome.User));
        Assert.All(steps, s => Assert.Equal(StepStanding.Approved, home.Steps.MandateOf(home.Painting.Id).Of(s.Content)));
        var entry = home.Write(TreatmentHome.Entry(steps[0].Id) with { Materials = [new LogMaterial("isooctane", 20, "mL", "B7", MaterialUse.Used), new LogMaterial("varnish", null, "", "", MaterialUse.Removed)] });
        Assert.Equal(("isooctane", 20, "mL", MaterialUse.Used), home.Log.Find(entry.Id).Content.Materials[0] is var m ? (m.Name, m.Amount, m.Unit, m.Use) : default);
        Assert.Equal("step-has-entries", CodeOf(() => home.Steps.Delete(steps[0].Id, 1, TreatmentHome.User)));
        home.Steps.Delete(steps[1].Id, 1, TreatmentHome.User);
        Assert.Equal("Losses", Assert.Single(home.Steps.FromApproved(proposal.Id, TreatmentHome.User)).Content.Name);
    }

    [Fact]
    public void A_step_that_departs_takes_no_entries_unless_waiting_would_have_done_harm()
    {
        using var home = new TreatmentHome();
        var step = home.Begun()[0];
        Mandate Approved() => home.Steps.MandateOf(home.Painting.Id);
        step = home.Steps.Change(step.Id, step.Revision, step.Content with { Name = "Varnish, upper band", Note = "in the morning" }, TreatmentHome.User);
        Assert.Equal(StepStanding.Approved, Approved().Of(step.Content));
        var entry = home.Write(TreatmentHome.Entry(step.Id));
        step = home.Steps.Change(step.Id, step.Revision, step.Content with { Zones = [] }, TreatmentHome.User);
        Assert.Equal((null, StepStanding.Departs), (step.Content.ProposedStepId, Approved().Of(step.Content)));
        Assert.Equal("step-not-approved", CodeOf(() => home.Write(TreatmentHome.Entry(step.Id, 1))));
        entry = home.Log.Change(entry.Id, entry.Revision, entry.Content with { What = "Swabs, rolled once." }, TreatmentHome.User);
        step = home.Steps.Change(step.Id, step.Revision, step.Content with { UrgentReason = "A cup was lifting; it would have fallen." }, TreatmentHome.User);
        Assert.Equal(1, home.Write(TreatmentHome.Entry(step.Id, 1)).Revision);
        Assert.Equal(StepStanding.Departs, Approved().Of(step.Content));
        var back = home.Steps.Restore(step.Id, 1, TreatmentHome.User);
        Assert.Equal(StepStanding.Approved, Approved().Of(back.Content));
    }

    [Theory, EachDatabase]
    public void A_step_that_was_ended_takes_no_later_entries_and_does_not_end_before_its_last_one(Database database)
    {
        using var home = new TreatmentHome(database, server);
        var step = home.Begun()[0];
        var last = home.Write(TreatmentHome.Entry(step.Id, 2)).Content.On!.Value;
        Assert.Equal("step-date", CodeOf(() => home.Steps.Change(step.Id, step.Revision, step.Content with { EndedOn = last.AddDays(-1) }, TreatmentHome.User)));
        step = home.Steps.Change(step.Id, step.Revision, step.Content with { EndedOn = last }, TreatmentHome.User);
        home.Write(TreatmentHome.Entry(step.Id, 1));
        Assert.Equal("step-ended", CodeOf(() => home.Write(TreatmentHome.Entry(step.Id, 3))));
    }

    [Fact]
    public void A_step_without_a_proposal_is_not_approved_and_nothing_attaches_itself_to_what_nobody_approved()
    {
        using var home = new TreatmentHome();
        var proposal = home.Proposed();
        var loose = home.Steps.Create(home.Painting.Id, new TreatmentStepContent { Name = "Facing", Operation = "stabilise/facing", ProposedStepId = Guid.NewGuid() }, TreatmentHome.User);
        Assert.Equal((null, StepStanding.NotApproved), (loose.Content.ProposedStepId, home.Steps.MandateOf(home.Painting.Id).Of(loose.Content)));
        Assert.Equal("step-not-approved", CodeOf(() => home.Write(TreatmentHome.Entry(loose.Id))));
        Assert.Equal("proposal-not-approved", CodeOf(() => home.Steps.Create(home.Painting.Id, loose.Content with { ProposalId = proposal.Id }, TreatmentHome.User)));
        Assert.Equal("proposal-not-approved", CodeOf(() => home.Steps.FromApproved(proposal.Id, TreatmentHome.User)));
        var approved = home.Approved();
        Assert.Equal("unknown-proposed-step", CodeOf(() => home.Steps.Create(home.Painting.Id, loose.Content with { ProposalId = approved.Id, ProposedStepId = Guid.NewGuid() }, TreatmentHome.User)));
        Assert.Equal("step-date", CodeOf(() => home.Steps.Change(loose.Id, 1, loose.Content with { EndedOn = DateOnly.FromDateTime(DateTime.Now).AddDays(1) }, TreatmentHome.User)));
    }

    /// <summary>What is approved later supersedes what was approved: a step that is in both as it was stays approved, one that is left out does not.</summary>
    [Fact]
    public void A_renewed_approval_counts_instead_of_the_earlier_one()
    {
        using var home = new TreatmentHome();
        var first = home.Approved();
        var steps = home.Steps.FromApproved(first.Id, TreatmentHome.User);
        var later = home.Proposals.Supersede(first.Id, TreatmentHome.User);
        later = home.Proposals.Change(later.Id, later.Revision, c => c.Without(c.Options[0].Id, c.Options[0].Steps[1].Id), TreatmentHome.User);
        Assert.Equal(StepStanding.Approved, home.Steps.MandateOf(home.Painting.Id).Of(steps[1].Content));
        home.Approvals.Approve(later.Id, later.Revision, later.Content.Options[0].Id, TreatmentHome.Keeper, "by telephone, confirmed by mail", "", TreatmentHome.User);
        var mandate = home.Steps.MandateOf(home.Painting.Id);
        Assert.Equal([later.Id], mandate.InForce);
        Assert.Equal((StepStanding.Approved, StepStanding.Departs), (mandate.Of(steps[0].Content), mandate.Of(steps[1].Content)));
        Assert.Equal("step-not-approved", CodeOf(() => home.Write(TreatmentHome.Entry(steps[1].Id))));
        Assert.Empty(home.Steps.FromApproved(later.Id, TreatmentHome.User));
    }

    [Fact]
    public void A_step_that_a_renewed_approval_changes_is_made_anew_and_the_old_one_departs()
    {
        using var home = new TreatmentHome();
        var first = home.Approved();
        var old = home.Steps.FromApproved(first.Id, TreatmentHome.User)[0];
        var later = home.Proposals.Supersede(first.Id, TreatmentHome.User);
        later = home.Proposals.Change(later.Id, later.Revision, c => c.With(c.Options[0].Id, c.Options[0].Steps[0] with { Operation = "clean/solvent gel" }), TreatmentHome.User);
        Assert.Empty(home.Steps.Unmade(home.Painting.Id));
        home.Approvals.Approve(later.Id, later.Revision, later.Content.Options[0].Id, TreatmentHome.Keeper, "by mail", "", TreatmentHome.User);
        Assert.Equal([later.Id], home.Steps.Unmade(home.Painting.Id));
        var made = Assert.Single(home.Steps.FromApproved(later.Id, TreatmentHome.User));
        var mandate = home.Steps.MandateOf(home.Painting.Id);
        Assert.Equal(("clean/solvent gel", StepStanding.Approved, StepStanding.Departs), (made.Content.Operation, mandate.Of(made.Content), mandate.Of(old.Content)));
        Assert.Empty(home.Steps.Unmade(home.Painting.Id));
    }

    [Fact]
    public void Nothing_rests_on_an_approval_that_was_tampered_with()
    {
        using var home = new TreatmentHome();
        var step = home.Begun()[0];
        using var db = home.Studio.CreateDb();
        db.Database.ExecuteSqlRaw("""UPDATE "ProposalApprovals" SET "Text" = replace("Text", 'the glaze may soften', 'nothing can happen')""");
        Assert.Equal(StepStanding.NotApproved, home.Steps.MandateOf(home.Painting.Id).Of(step.Content));
        Assert.Equal("step-not-approved", CodeOf(() => home.Write(TreatmentHome.Entry(step.Id))));
    }

    [Fact]
    public void Entries_that_cannot_be_are_refused()
    {
        using var home = new TreatmentHome();
        var step = home.Begun()[0].Id;
        var good = TreatmentHome.Entry(step);
        string Refused(LogEntryContent wrong) => CodeOf(() => home.Write(wrong));
        LogEntryContent With(string name, double? amount, string unit, MaterialUse use = MaterialUse.Used) => good with { Materials = [new LogMaterial(name, amount, unit, "", use)] };
        Assert.Equal("unknown-step", Refused(good with { StepId = Guid.NewGuid() }));
        Assert.Equal("entry-date", Refused(good with { On = null }));
        Assert.Equal("entry-date", Refused(good with { On = DateOnly.FromDateTime(DateTime.Now).AddDays(1) }));
        Assert.Equal("entry-who", Refused(good with { Who = " " }));
        Assert.Equal("entry-what", Refused(good with { What = "" }));
        foreach (var hours in new[] { 0, -1, 24.5, double.NaN, double.PositiveInfinity }) Assert.Equal("entry-hours", Refused(good with { Hours = hours }));
        Assert.Equal("unknown-zone", Refused(good with { Zones = [Guid.NewGuid()] }));
        Assert.Equal("unknown-photograph", Refused(good with { Photographs = [Guid.NewGuid()] }));
        Assert.Equal("timed-test", Refused(good with { IsTimedTest = true }));
        Assert.Equal("timed-test", Refused(good with { IsTimedTest = true, Zones = [home.Band], Hours = null }));
        Assert.Equal("material-amount", Refused(With("ethanol", -1, "mL")));
        Assert.Equal("material-amount", Refused(With("ethanol", double.NaN, "mL")));
        Assert.Equal("material-unit", Refused(With("ethanol", 5, "")));
        Assert.Equal("material-unit", Refused(With("ethanol", null, "mL")));
        Assert.Equal("material-use", Refused(With("ethanol", 5, "mL", (MaterialUse)7)));
        Assert.Equal("name", Refused(With(" ", 5, "mL")));
        Assert.Equal("value-missing", Refused(With(null!, 5, "mL")));
        Assert.Equal("value-missing", Refused(good with { Materials = [null!] }));
        Assert.Equal("value-missing", Refused(good with { Zones = null! }));
        Assert.Empty(home.Log.Of(home.Painting.Id));
        home.Write(good with { On = DateOnly.FromDateTime(DateTime.Now) });
    }

    [Fact]
    public void Nobody_works_more_than_a_day_has_hours_whatever_the_painting()
    {
        using var home = new TreatmentHome();
        var step = home.Begun()[0].Id;
        var entry = home.Write(TreatmentHome.Entry(step, 0, 14));
        var other = home.Home.AddPainting("Sluice in snow");
        var urgent = home.Steps.Create(other.Id, new TreatmentStepContent { Name = "Facing", Operation = "stabilise/facing", UrgentReason = "It fell." }, TreatmentHome.User);
        Assert.Equal("entry-hours", CodeOf(() => home.Write(TreatmentHome.Entry(urgent.Id, 0, 10.5), other.Id)));
        home.Write(TreatmentHome.Entry(urgent.Id, 0, 10.5) with { Who = "Tom Brug" }, other.Id);
        home.Write(TreatmentHome.Entry(urgent.Id, 0, 10) with { Who = "marta oud" }, other.Id);
        home.Log.Change(entry.Id, entry.Revision, entry.Content with { Hours = 13 }, TreatmentHome.User);
        Assert.Equal("entry-hours", CodeOf(() => home.Log.Change(entry.Id, 2, entry.Content with { Hours = 14.5 }, TreatmentHome.User)));
        Assert.Equal("unknown-step", CodeOf(() => home.Write(TreatmentHome.Entry(urgent.Id))));
    }

    [Fact]
    public void Entries_come_by_day_and_what_they_said_before_stays_readable()
    {
        using var home = new TreatmentHome();
        var step = home.Begun()[0].Id;
        var (late, early) = (home.Write(TreatmentHome.Entry(step, 5)), home.Write(TreatmentHome.Entry(step, 1)));
        Assert.Equal([early.Id, late.Id], home.Log.ByDay(home.Painting.Id).Select(e => e.Id));
        home.Log.Change(early.Id, 1, early.Content with { NewlySeen = "a signature under the varnish" }, TreatmentHome.User);
        Assert.Equal(["", "a signature under the varnish"], home.Log.History(early.Id).Select(r => r.Content.NewlySeen));
    }
}
