using Sandarac.Imaging;
using Sandarac.Studio.Record;
using Sandarac.Studio.Tests.Support;

namespace Sandarac.Studio.Tests.Findings;

public sealed class CandidateTests(PostgresServer server)
{
    private const string User = "marta";

    private static string CodeOf(Action act) => Assert.Throws<InputProblem>(act).Code;

    [Theory, EachDatabase]
    public void A_candidate_becomes_a_finding_that_rests_on_the_reading(Database database)
    {
        using var home = new TemporaryStudio(database, server);
        var painting = home.AddPainting();
        var zone = Proposed.Candidate(home, painting.Id);
        var kept = new Candidates(home.Studio).Keep(zone.Id, 1, null, User);
        var candidates = new Candidates(home.Reopen());
        Assert.Empty(candidates.Open(painting.Id));
        Assert.Equal((zone.Id, CandidateVerdict.Kept, kept.Id), candidates.Judged(painting.Id).Select(j => (j.Zone.Id, j.Decision!.Verdict, j.Decision.FindingId!.Value)).Single());
        var finding = new Studio.Findings(home.Studio).Find(kept.Id).Content;
        Assert.Equal(zone.Id, Assert.Single(finding.Zones));
        Assert.Equal((EvidenceKind.Reading, zone.RunId), (finding.Evidence[0].Kind, finding.Evidence[0].Id));
        Assert.Contains("darker than the varnish about it", finding.Observation, StringComparison.Ordinal);
        Assert.Equal("", finding.Interpretation);
        Assert.False(new Zones(home.Studio).Find(zone.Id).IsCandidate);
        Assert.Equal("not-a-candidate", CodeOf(() => candidates.Keep(zone.Id, 2, null, User)));
    }

    [Theory, EachDatabase]
    public void A_rejection_keeps_its_reason_and_can_be_taken_back(Database database)
    {
        using var home = new TemporaryStudio(database, server);
        var painting = home.AddPainting();
        var zone = Proposed.Candidate(home, painting.Id);
        var candidates = new Candidates(home.Studio);
        Assert.Equal("candidate-reason", CodeOf(() => candidates.Reject(zone.Id, 1, "  ", User)));
        Assert.Equal("zone-changed", CodeOf(() => candidates.Reject(zone.Id, 9, "the frame's shadow", User)));
        candidates.Reject(zone.Id, 1, "the frame's shadow", User);
        Assert.Equal(("the frame's shadow", User), candidates.Judged(painting.Id).Select(j => (j.Decision!.Reason, j.Decision.By)).Single());
        Assert.Empty(new Zones(home.Studio).Of(painting.Id));
        Assert.True(candidates.Reopen(zone.Id, User).IsCandidate);
        Assert.Empty(candidates.Judged(painting.Id));
        Assert.Single(candidates.Open(painting.Id));
        Assert.Equal("not-decided", CodeOf(() => candidates.Reopen(zone.Id, User)));
        Assert.Equal(["deleted", "restored"], new Zones(home.Studio).History(zone.Id).Select(c => c.What));
    }

    [Fact]
    public void Taking_back_takes_the_finding_out_unless_someone_wrote_on_it()
    {
        using var home = new TemporaryStudio();
        var painting = home.AddPainting();
        var (candidates, findings) = (new Candidates(home.Studio), new Studio.Findings(home.Studio));
        var zone = Proposed.Candidate(home, painting.Id);
        candidates.Keep(zone.Id, 1, null, User);
        candidates.Reopen(zone.Id, User);
        Assert.Empty(findings.Of(painting.Id));
        Assert.Equal(0, new Searching(home.Studio).Find(new SearchQuestion()).Total);
        var again = candidates.Keep(zone.Id, 3, null, User);
        findings.Change(again.Id, 1, again.Content with { Interpretation = "retouching" }, "jan");
        Assert.Equal("finding-changed", CodeOf(() => candidates.Reopen(zone.Id, User)));
        Assert.Single(findings.Of(painting.Id));
        Assert.False(new Zones(home.Studio).Find(zone.Id).IsCandidate);
    }

    /// <summary>Two people judge one candidate at the same moment: one decision counts, the other is told.</summary>
    [Theory, EachDatabase]
    public void Of_decisions_at_the_same_moment_one_counts(Database database)
    {
        using var home = new TemporaryStudio(database, server);
        var painting = home.AddPainting();
        var zone = Proposed.Candidate(home, painting.Id);
        var won = 0;
        Parallel.For(0, 6, i =>
        {
            try
            {
                if (i % 2 == 0) new Candidates(home.Studio).Keep(zone.Id, 1, null, User);
                else new Candidates(home.Studio).Reject(zone.Id, 1, "no", User);
                Interlocked.Increment(ref won);
            }
            catch (InputProblem e) when (e.Code is "zone-changed" or "not-a-candidate")
            {
            }
        });
        Assert.Equal(1, won);
        Assert.Single(new Candidates(home.Studio).Judged(painting.Id));
        Assert.True(new Studio.Findings(home.Studio).Of(painting.Id).Count <= 1);
    }
}
