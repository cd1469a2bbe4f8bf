using System.Security.Cryptography;
using System.Text;
using Microsoft.EntityFrameworkCore;
using Sandarac.Imaging;
using Sandarac.Studio.Record;
using Sandarac.Studio.Tests.Findings;
using Sandarac.Studio.Tests.Support;

namespace Sandarac.Studio.Tests.Checks;

public sealed class CheckTests(PostgresServer server)
{
    private const string User = "marta";

    private static readonly DateOnly Day = new(2026, 3, 4);

    private static string CodeOf(Action act) => Assert.Throws<InputProblem>(act).Code;

    [Theory, EachDatabase]
    public void A_check_carries_the_findings_over_and_tells_what_changed(Database database)
    {
        using var home = new TemporaryStudio(database, server);
        var (painting, kept, baseline) = Begun(home);
        new Sealing(home.Studio).Seal(baseline.Id, baseline.Revision, "", User);
        var (checks, findings, zones) = (new ConditionChecks(home.Studio), new Studio.Findings(home.Studio), new Zones(home.Studio));
        var check = checks.Start(baseline.Id, "unpacking", Occasion.Incoming, Day, "gallery", User);
        Assert.Equal((kept.Id, Standing.Open), check.Content.Entries.Select(e => (e.FindingId, e.Standing)).Single());
        var zone = zones.Find(kept.Content.Zones[0]);
        zones.Change(zone.Id, zone.Revision, new ZoneContent(zone.Name, zone.Kind, "", """{"type":"Polygon","coordinates":[[[10,10],[40,10],[40,20],[10,20],[10,10]]]}"""));
        check = checks.Answer(check.Id, check.Revision, new StateEntry(kept.Id, Standing.Changed, "wider"), User);
        var added = findings.Create(painting.Id, new FindingContent { Observation = "a loss", Author = User }, User);
        check = checks.Answer(check.Id, check.Revision, new StateEntry(added.Id, Standing.New, ""), User);
        var delta = new CheckDelta(home.Studio).Of(check.Id);
        Assert.Equal([Standing.New, Standing.Changed], delta.Select(r => r.Standing));
        Assert.Equal((200, 300, "wider"), (delta[1].Before!.AreaMm2, delta[1].After!.AreaMm2, delta[1].Note));
        Assert.Null(delta[0].Before);
        Assert.Equal("state-changed", CodeOf(() => checks.Answer(check.Id, 1, new StateEntry(kept.Id, Standing.Gone, ""), User)));
    }

    /// <summary>A place that two of a finding's zones cover is there once, as on plans and on the findings' page.</summary>
    [Fact]
    public void Zones_that_overlap_count_once()
    {
        using var home = new TemporaryStudio();
        var (painting, findings, zones) = (home.AddPainting(), new Studio.Findings(home.Studio), new Zones(home.Studio));
        Guid[] two = [.. new[] { 10, 20 }.Select(x => zones.Create(painting.Id, new ZoneContent($"from {x}", "", "", $$"""{"type":"Polygon","coordinates":[[[{{x}},10],[{{x + 20}},10],[{{x + 20}},20],[{{x}},20],[{{x}},10]]]}""")).Id)];
        var finding = findings.Create(painting.Id, new FindingContent { Observation = "a veil", Author = User, Zones = two }, User);
        var state = new ConditionStates(home.Studio).Create(painting.Id, new ConditionStateContent { Name = "leaving", Entries = [new StateEntry(finding.Id, Standing.AsBefore, "")] }, User);
        Assert.Equal(300, Assert.Single(new CheckDelta(home.Studio).Of(state.Id)).After!.AreaMm2, 9);
        new Sealing(home.Studio).Seal(state.Id, state.Revision, "", User);
        Assert.Equal(300, Assert.Single(new CheckDelta(home.Studio).Of(state.Id)).After!.AreaMm2, 9);
    }

    [Theory, EachDatabase]
    public void What_is_open_needs_a_reason_and_what_is_sealed_is_signed_by_its_hash(Database database)
    {
        using var home = new TemporaryStudio(database, server);
        var (_, kept, baseline) = Begun(home);
        var (checks, sealing) = (new ConditionChecks(home.Studio), new Sealing(home.Studio));
        var check = checks.Start(baseline.Id, "unpacking", Occasion.Incoming, Day, "gallery", User);
        Assert.Equal("state-not-sealed", CodeOf(() => sealing.Sign(check.Id, "", "Ada", "courier", "lender")));
        Assert.Equal("state-open", CodeOf(() => sealing.Seal(check.Id, check.Revision, " ", User)));
        Assert.Equal("state-changed", CodeOf(() => sealing.Seal(check.Id, check.Revision + 1, "the light failed", User)));
        var seal = sealing.Seal(check.Id, check.Revision, "the light failed", User);
        Assert.Equal(Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(seal.Text))), seal.Sha256);
        Assert.Contains("the light failed", seal.Text, StringComparison.Ordinal);
        Assert.Equal("other-hash", CodeOf(() => sealing.Sign(check.Id, new string('0', 64), "Ada", "courier", "lender")));
        Assert.Equal("signature", CodeOf(() => sealing.Sign(check.Id, seal.Sha256, "Ada", " ", "lender")));
        sealing.Sign(check.Id, seal.Sha256, "Ada", "courier", "lender");
        Assert.Equal("signed-already", CodeOf(() => sealing.Sign(check.Id, seal.Sha256, "ada", "registrar", "Lender")));
        sealing.Sign(check.Id, seal.Sha256, "Ben", "registrar", "borrower");
        var later = new Sealing(home.Reopen());
        Assert.Equal(["Ada", "Ben"], later.Find(check.Id)!.Signatures.Select(s => s.Name));
        Assert.Empty(later.Verify(check.Id));
        Assert.Equal("state-sealed", CodeOf(() => later.Seal(check.Id, check.Revision, "again", User)));
        Assert.Equal("state-sealed", CodeOf(() => new ConditionChecks(home.Studio).Answer(check.Id, check.Revision, new StateEntry(kept.Id, Standing.Gone, ""), User)));
        Assert.Equal("state-sealed", CodeOf(() => new ConditionStates(home.Studio).Delete(check.Id, check.Revision, User)));
        Assert.Empty(later.Verify(check.Id));
    }

    /// <summary>Whoever writes into the database by hand is told of, whichever row she changes.</summary>
    [Theory]
    [InlineData("""UPDATE "StateSeals" SET "Text" = replace("Text", 'unpacking', 'unpackinG')""")]
    [InlineData("""UPDATE "StateSeals" SET "Text" = '{}'""")]
    [InlineData("""UPDATE "StateSeals" SET "Sha256" = '00'""")]
    [InlineData("""UPDATE "StateSeals" SET "By" = 'another'""")]
    [InlineData("""UPDATE "Signatures" SET "Sha256" = '00'""")]
    [InlineData("""DELETE FROM "Signatures" WHERE "Number" = 1""")]
    [InlineData("""UPDATE "ConditionStates" SET "Name" = 'unpackinG'""")]
    public void Tampered_rows_are_told(string sql)
    {
        using var home = new TemporaryStudio();
        var (_, _, baseline) = Begun(home);
        var sealing = new Sealing(home.Studio);
        var check = new ConditionChecks(home.Studio).Start(baseline.Id, "unpacking", Occasion.Incoming, Day, "gallery", User);
        var seal = sealing.Seal(check.Id, check.Revision, "the light failed", User);
        sealing.Sign(check.Id, seal.Sha256, "Ada", "courier", "lender");
        sealing.Sign(check.Id, seal.Sha256, "Ben", "registrar", "borrower");
        Assert.Empty(sealing.Verify(check.Id));
        using var db = home.Studio.CreateDb();
        Assert.True(db.Database.ExecuteSqlRaw(sql.Replace("{", "{{", StringComparison.Ordinal).Replace("}", "}}", StringComparison.Ordinal)) > 0);
        Assert.NotEmpty(sealing.Verify(check.Id));
        Assert.Equal("seal-broken", CodeOf(() => sealing.Sign(check.Id, seal.Sha256, "Cleo", "conservator", "lender")));
    }

    private static (Painting Painting, Finding Kept, ConditionState Baseline) Begun(TemporaryStudio home)
    {
        var painting = home.AddPainting();
        var kept = new Candidates(home.Studio).Keep(Proposed.Candidate(home, painting.Id).Id, 1, null, User);
        return (painting, kept, new ConditionChecks(home.Studio).Record(painting.Id, "before the loan", Occasion.Outgoing, Day, "store", User));
    }
}
