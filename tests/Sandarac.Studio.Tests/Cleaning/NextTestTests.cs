using Sandarac.Materials.Cleaning;
using Sandarac.Materials.Solvents;
using Sandarac.Studio.Cleaning;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Tests.Cleaning;

/// <summary>Tests on solvents of the table; how they came out is made up.</summary>
public sealed class NextTestTests
{
    private static readonly string[] Names = ["isooctane", "toluene", "acetone", "ethanol", "isopropanol"];

    private static NextTestLimits Shelf(double step = 5, params string[] excluded) => new([.. Names.Select(SolventTable.Get)], excluded, step);

    private static CleaningTest Test(int number, string agent, TestEffect onVarnish, TestEffect onOriginal = TestEffect.None, TestVerdict verdict = TestVerdict.Open, Passage passage = Passage.Light) => new()
    {
        Content = new CleaningTestContent
        {
            Number = number, AgentKind = AgentKind.Solvent, Agent = [.. Mixture.Parse(agent).Parts.Select(p => new AgentPart(p.Solvent.Name, 100 * p.Fraction))], Aim = CleaningDepth.Varnish, Passage = passage, X = 1, Y = 1, PlannedSeconds = 10,
            DoneOn = new DateOnly(2026, 5, 4), DoneBy = "Marta Oud", OnVarnish = onVarnish, OnOriginal = onOriginal, Verdict = verdict, UltravioletAfter = "looked at",
        },
    };

    private static double Dispersion(NextTest test) => test.Agent.Teas.Value!.Dispersion;

    [Fact]
    public void The_first_is_the_mildest_there_is()
    {
        var first = NextTests.Of([], CleaningDepth.Varnish, Shelf());
        Assert.Equal("isooctane", first.Value![0].Agent.Parts.Single().Solvent.Name.Split(' ')[0]);
        Assert.Equal(3, first.Value.Count);
    }

    /// <summary>The rules by plain enumeration over all mixtures: none milder that also keeps them is passed over, none proposed breaks one.</summary>
    [Fact]
    public void What_is_proposed_is_a_step_stronger_than_what_was_too_weak_milder_than_what_went_further_and_the_mildest_of_these()
    {
        CleaningTest[] tests = [Test(1, "isooctane", TestEffect.None), Test(2, "isooctane 80 + acetone 20", TestEffect.Softened, verdict: TestVerdict.TooWeak), Test(3, "ethanol", TestEffect.Removed, TestEffect.Softened, TestVerdict.TooStrong)];
        var (weak, beyond) = (Mixture.Parse("isooctane 80 + acetone 20").Teas.Value!.Dispersion, Mixture.Parse("ethanol").Teas.Value!.Dispersion);
        var proposed = NextTests.Of(tests, CleaningDepth.Varnish, Shelf()).Value!;
        Assert.All(proposed, p => Assert.InRange(Dispersion(p), beyond + 1e-9, weak - 5 + 1e-9));
        var (own, original) = (LayerEvidence.Of(tests, CleaningDepth.Varnish), LayerEvidence.Of(tests, CleaningDepth.Original));
        var all = from i in Enumerable.Range(0, Names.Length) from j in Enumerable.Range(0, Names.Length) from share in Enumerable.Range(1, 9) where i < j select Mixture.Parse($"{Names[i]} {10 * share} + {Names[j]} {100 - 10 * share}");
        var best = all.Where(m => m.Teas.Value!.Dispersion is var d && d <= weak - 5 && d > beyond && own.InHansen(m) != Belongs.Outside && original.InHansen(m) != Belongs.Inside).Max(m => m.Teas.Value!.Dispersion);
        Assert.Equal(best, Dispersion(proposed[0]), 0.05);
    }

    [Fact]
    public void When_a_test_did_its_work_no_stronger_one_is_proposed()
    {
        CleaningTest[] tests = [Test(1, "isooctane", TestEffect.None), Test(2, "isopropanol 20 + isooctane 80", TestEffect.Removed, verdict: TestVerdict.AsIntended)];
        var answer = NextTests.Of(tests, CleaningDepth.Varnish, Shelf());
        Assert.Null(answer.Value);
        Assert.StartsWith("Test 2", answer.NoAnswer, StringComparison.Ordinal);
        Assert.NotNull(NextTests.Of(tests, CleaningDepth.Overpaint, Shelf()).Value);
        tests[1].Content = tests[1].Content with { Verdict = TestVerdict.Open };
        Assert.Contains("judge it first", NextTests.Of(tests, CleaningDepth.Varnish, Shelf()).NoAnswer, StringComparison.Ordinal);
        tests[1].Content = tests[1].Content with { SwabTookPaint = true };
        Assert.NotNull(NextTests.Of(tests, CleaningDepth.Varnish, Shelf()).Value);
    }

    [Fact]
    public void Nothing_left_to_choose_from_is_said()
    {
        Assert.NotNull(NextTests.Of([], CleaningDepth.Varnish, Shelf(5, "H2")).NoAnswer);
        CleaningTest[] stuck = [Test(1, "toluene", TestEffect.None), Test(2, "toluene 90 + acetone 10", TestEffect.Removed, TestEffect.Reduced, TestVerdict.TooStrong)];
        Assert.Contains("between test 1", NextTests.Of(stuck, CleaningDepth.Varnish, Shelf()).NoAnswer, StringComparison.Ordinal);
        Assert.DoesNotContain("safe", NextTests.Of(stuck, CleaningDepth.Varnish, Shelf()).NoAnswer, StringComparison.OrdinalIgnoreCase);
        Assert.All(NextTests.Of([], CleaningDepth.Varnish, Shelf(5, "H336")).Value!, p => Assert.DoesNotContain(p.Agent.Parts, part => part.Solvent.Bears("H336")));
    }

    [Fact]
    public void Evidence_counts_softened_as_acted_and_leaves_unknown_agents_out()
    {
        var strange = Test(4, "ethanol", TestEffect.Removed);
        strange.Content = strange.Content with { Agent = [new("elixir", 100)] };
        CleaningTest[] tests = [Test(1, "isooctane", TestEffect.None), Test(2, "ethanol", TestEffect.Softened), Test(3, "acetone", TestEffect.NotStated), strange];
        var evidence = LayerEvidence.Of(tests, CleaningDepth.Varnish);
        Assert.Equal([2], evidence.Acted.Select(t => t.Test.Content.Number));
        Assert.Equal([1], evidence.DidNot.Select(t => t.Test.Content.Number));
        Assert.True(evidence.Hansen.Any);
        Assert.NotEqual(Belongs.Inside, evidence.InHansen(Mixture.Parse("isooctane")));
        Assert.NotEqual(Belongs.Outside, evidence.InHansen(Mixture.Parse("ethanol")));
    }

    [Fact]
    public void A_plan_is_told_what_it_lacks()
    {
        string[] Codes(params CleaningTest[] tests) => [.. PlanGaps.Of(tests).Select(g => g.Code)];
        Assert.Empty(Codes());
        var light = Test(1, "ethanol", TestEffect.Removed, verdict: TestVerdict.AsIntended);
        Assert.Equal(["one-spot", "no-dark", "one-passage"], Codes(light));
        var dark = Test(2, "ethanol", TestEffect.Removed, passage: Passage.Dark);
        Assert.Empty(Codes(light, dark));
        var milder = Test(3, "isooctane", TestEffect.NotStated);
        milder.Content = milder.Content with { DoneOn = null, X = null, Y = null, PlannedSeconds = null };
        Assert.Equal(["not-mildest-first", "no-place", "no-time"], Codes(light, dark, milder));
    }
}
