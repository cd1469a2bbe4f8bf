using System.Security.Cryptography;
using System.Text;
using Microsoft.EntityFrameworkCore;
using Sandarac.Imaging;
using Sandarac.Studio.Record;
using Sandarac.Studio.Tests.Support;
using Sandarac.Studio.Treatment;

namespace Sandarac.Studio.Tests.Treatment;

public sealed class ProposalTests(PostgresServer server)
{
    private static string CodeOf(Action act) => Assert.Throws<InputProblem>(act).Code;

    [Theory, EachDatabase]
    public void What_is_approved_is_frozen_with_its_hash(Database database)
    {
        using var home = new TreatmentHome(database, server);
        var proposal = home.Approved();
        var approval = home.Approvals.Find(proposal.Id)!;
        Assert.Equal(Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(approval.Text))), approval.Sha256);
        Assert.Contains("hours at the studio's rate", approval.Text, StringComparison.Ordinal);
        Assert.Contains("No work on the signature.", approval.Text, StringComparison.Ordinal);
        Assert.Contains("[400,100]", approval.Text.Replace("\\", "", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.Empty(home.Approvals.Verify(proposal.Id));
        Assert.Equal("proposal-approved", CodeOf(() => home.Proposals.Change(proposal.Id, proposal.Revision, proposal.Content with { Title = "Another" }, TreatmentHome.User)));
        Assert.Equal("proposal-approved", CodeOf(() => home.Proposals.Delete(proposal.Id, proposal.Revision, TreatmentHome.User)));
        Assert.Equal("proposal-approved", CodeOf(() => home.Proposals.Restore(proposal.Id, 1, TreatmentHome.User)));
        Assert.Equal("proposal-approved", CodeOf(() => home.Approvals.Approve(proposal.Id, proposal.Revision, proposal.Content.Options[1].Id, TreatmentHome.Keeper, "letter", "", TreatmentHome.User)));
        Assert.Equal(1, home.Proposals.Find(proposal.Id).Revision);
        Assert.Empty(home.Approvals.Verify(proposal.Id));
    }

    /// <summary>Whoever writes into the database by hand is told of, whichever row she changes.</summary>
    [Theory]
    [InlineData("""UPDATE "ProposalApprovals" SET "Text" = replace("Text", '2500', '9500')""")]
    [InlineData("""UPDATE "ProposalApprovals" SET "Text" = '{}'""")]
    [InlineData("""UPDATE "ProposalApprovals" SET "Sha256" = '00'""")]
    [InlineData("""UPDATE "ProposalApprovals" SET "Conditions" = ''""")]
    [InlineData("""UPDATE "ProposalApprovals" SET "Custodian" = 'another'""")]
    [InlineData("""UPDATE "Proposals" SET "Title" = 'another'""")]
    [InlineData("""UPDATE "Proposals" SET "Options" = '[]'""")]
    public void Tampering_is_told(string sql)
    {
        using var home = new TreatmentHome();
        var proposal = home.Approved();
        using var db = home.Studio.CreateDb();
        Assert.True(db.Database.ExecuteSqlRaw(sql.Replace("{", "{{", StringComparison.Ordinal).Replace("}", "}}", StringComparison.Ordinal)) > 0);
        Assert.NotEmpty(home.Approvals.Verify(proposal.Id));
    }

    [Fact]
    public void Approving_names_the_revision_the_option_and_who()
    {
        using var home = new TreatmentHome();
        var proposal = home.Proposed();
        var option = proposal.Content.Options[0].Id;
        string Refused(int revision, Guid chosen, Custodian who, string how) => CodeOf(() => home.Approvals.Approve(proposal.Id, revision, chosen, who, how, "", TreatmentHome.User));
        Assert.Equal("proposal-changed", Refused(2, option, TreatmentHome.Keeper, "letter"));
        Assert.Equal("unknown-option", Refused(1, Guid.NewGuid(), TreatmentHome.Keeper, "letter"));
        Assert.Equal("signature", Refused(1, option, TreatmentHome.Keeper with { Name = " " }, "letter"));
        Assert.Equal("signature", Refused(1, option, TreatmentHome.Keeper with { Organisation = "a\u0007b" }, "letter"));
        Assert.Equal("signature", Refused(1, option, TreatmentHome.Keeper, ""));
        home.Proposals.Delete(proposal.Id, 1, TreatmentHome.User);
        Assert.Equal("proposal-deleted", Refused(2, option, TreatmentHome.Keeper, "letter"));
        Assert.Equal("unknown-proposal", CodeOf(() => home.Approvals.Approve(Guid.NewGuid(), 1, option, TreatmentHome.Keeper, "letter", "", TreatmentHome.User)));
        Assert.Null(home.Approvals.Find(proposal.Id));
    }

    [Theory]
    [InlineData(20, 10, "log", "range")]
    [InlineData(-1, 10, "log", "range")]
    [InlineData(double.NaN, 10, "log", "range")]
    [InlineData(1, double.PositiveInfinity, "log", "range")]
    [InlineData(1, 2, " ", "range-basis")]
    public void A_range_that_is_none_is_refused(double low, double high, string basis, string code)
    {
        using var home = new TreatmentHome();
        var content = home.Content();
        Assert.Equal(code, CodeOf(() => home.Proposals.Create(home.Painting.Id, content.With(content.Options[0] with { Hours = new GroundedRange(low, high, basis) }), TreatmentHome.User)));
        Assert.Equal(code, CodeOf(() => home.Proposals.Create(home.Painting.Id, content.With(content.Options[0] with { Cost = new GroundedRange(low, high, basis) }), TreatmentHome.User)));
        Assert.Empty(home.Proposals.Of(home.Painting.Id));
    }

    [Fact]
    public void What_cannot_be_a_proposal_is_refused()
    {
        using var home = new TreatmentHome();
        var content = home.Content();
        var (option, step) = (content.Options[0], content.Options[0].Steps[0]);
        string Refused(ProposalContent wrong) => CodeOf(() => home.Proposals.Create(home.Painting.Id, wrong, TreatmentHome.User));
        Assert.Equal("name", Refused(content with { Title = "" }));
        Assert.Equal("currency", Refused(content.With(option with { Currency = "" })));
        Assert.Equal("currency", Refused(content.With(option with { Currency = "euro" })));
        Assert.Equal("currency", Refused(content.With(option with { Cost = null })));
        Assert.Equal("unknown-option", Refused(content with { AdvisedId = Guid.NewGuid() }));
        Assert.Equal("key-twice", Refused(content with { Options = [option, option] }));
        Assert.Equal("key-twice", Refused(content with { Options = [option with { Id = Guid.Empty }] }));
        Assert.Equal("key-twice", Refused(content with { Options = [option with { Steps = [step, step] }] }));
        Assert.Equal("unknown-zone", Refused(content.With(option.Id, step with { Zones = [Guid.NewGuid()] })));
        Assert.Equal("step-kind", Refused(content.With(option.Id, step with { Kind = (StepKind)99 })));
        Assert.Equal("name", Refused(content.With(option.Id, step with { Operation = "" })));
        Assert.Equal("value-missing", Refused(content.With(option.Id, step with { Risks = null! })));
        Assert.Equal("value-missing", Refused(content with { Options = [null!] }));
        Assert.Equal("value-missing", Refused(content with { Options = [option with { Steps = null! }] }));
        Assert.Equal("text-unreadable", Refused(content.With(option with { Aims = "a\u0001b" })));
        Assert.Equal("text-too-long", Refused(content.With(option.Id, step with { Risks = new string('x', 20_001) })));
        Assert.Equal("proposal-long", Refused(content with { Options = [.. Enumerable.Range(0, 21).Select(_ => option with { Id = Guid.NewGuid() })] }));
        Assert.Equal("proposal-not-approved", Refused(content with { SupersedesId = Guid.NewGuid() }));
        Assert.Equal("proposal-not-approved", CodeOf(() => home.Proposals.Supersede(home.Proposed().Id, TreatmentHome.User)));
    }

    [Fact]
    public void A_later_proposal_starts_from_the_approved_one_and_what_differs_is_told_step_by_step()
    {
        using var home = new TreatmentHome();
        var approved = home.Approved();
        var later = home.Proposals.Supersede(approved.Id, TreatmentHome.User);
        var option = later.Content.Options[0];
        Assert.Equal((approved.Id, approved.Content.Options[0].Steps[0].Id), (later.Content.SupersedesId!.Value, option.Steps[0].Id));
        Assert.All(ProposalDifference.Between(approved.Content.Options[0], option), d => Assert.Equal(StepChange.Same, d.Change));
        var added = TreatmentHome.Step("Gel", StepKind.Cleaning, "clean/solvent gel");
        var changed = later.Content.With(option.Id, option.Steps[0] with { Operation = "clean/solvent gel", Zones = [] }).Without(option.Id, option.Steps[1].Id).With(option.Id, added).Earlier(option.Id, added.Id);
        later = home.Proposals.Change(later.Id, later.Revision, changed, TreatmentHome.User);
        var differences = ProposalDifference.Between(approved.Content.Options[0], later.Content.Options[0]);
        Assert.Equal([StepChange.Added, StepChange.Changed, StepChange.LeftOut], differences.Select(d => d.Change));
        Assert.Equal(["operation", "zones"], differences[1].Parts);
        Assert.Equal("Losses", differences[2].Approved!.Name);
    }

    [Fact]
    public void Steps_that_only_change_their_order_are_told()
    {
        var (a, b, c) = (TreatmentHome.Step("a", StepKind.Other, "x"), TreatmentHome.Step("b", StepKind.Other, "x"), TreatmentHome.Step("c", StepKind.Other, "x"));
        ProposalOption Of(params ProposedStep[] steps) => new(Guid.NewGuid(), "way", "", steps, null, null, "");
        Assert.Equal([StepChange.Changed, StepChange.Changed, StepChange.Same], ProposalDifference.Between(Of(a, b, c), Of(b, a, c)).Select(d => d.Change));
        Assert.Equal([StepChange.Same, StepChange.Same, StepChange.LeftOut], ProposalDifference.Between(Of(a, b, c), Of(b, c)).Select(d => d.Change));
    }
}
