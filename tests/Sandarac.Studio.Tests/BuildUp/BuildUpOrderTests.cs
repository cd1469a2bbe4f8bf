using CsCheck;
using Sandarac.Imaging;
using Sandarac.Studio.BuildUp;

namespace Sandarac.Studio.Tests.BuildUp;

public sealed class BuildUpOrderTests
{
    private static readonly BuildUpStage[] Stages = [.. Enumerable.Range(0, 7).Select(i => new BuildUpStage(Guid.CreateVersion7(), $"stage {i}", StageKind.Paint))];

    private static readonly Gen<List<BuildUpRelation>> Relations = Gen.Select(Gen.Int[0, 6], Gen.Enum<RelationKind>(), Gen.Int[0, 6], Gen.Int[0, 9])
        .Select((a, kind, b, rare) => new BuildUpRelation(Guid.NewGuid(), Stages[a].Id, rare > 2 && kind == RelationKind.Same ? RelationKind.Over : kind, Stages[b].Id, "seen")).List[0, 12];

    [Fact]
    public void Contradictions_are_those_of_a_checker_that_walks_every_way() => Relations.Sample(relations =>
    {
        var order = BuildUpOrder.Of(Stages, relations);
        var chains = order.Contradictions.SelectMany(c => c.Further.Prepend(c.Chain)).ToList();
        Assert.All(chains, AssertLeadsBack);
        foreach (var relation in relations.Where(r => r.Kind != RelationKind.Same))
        {
            var fewest = SlowOrder.FewestBack(relations, relation);
            var listed = chains.Where(c => c.Contains(relation)).Select(c => (int?)c.Count).Min();
            Assert.Equal(fewest, listed);
        }
        Assert.All(order.Contradictions, c => Assert.All(c.Further, f => Assert.Contains(c.Shared, f)));
    }, iter: 500);

    [Fact]
    public void Every_pair_stands_as_a_checker_that_walks_every_way_says() => Relations.Sample(relations =>
    {
        var order = BuildUpOrder.Of(Stages, relations);
        var reach = SlowOrder.Reach(Stages, relations);
        foreach (var a in order.Groups)
            foreach (var b in order.Groups.Where(b => b != a))
            {
                var (down, up) = (reach.Contains((a.Stages[0].Id, b.Stages[0].Id)), reach.Contains((b.Stages[0].Id, a.Stages[0].Id)));
                Assert.Equal(down ? up ? Standing.Contradicted : Standing.Over : up ? Standing.Under : Standing.Undetermined, order.Between(a, b));
            }
    }, iter: 500);

    [Fact]
    public void What_is_left_out_follows_from_what_is_kept_and_nothing_kept_does() => Relations.Sample(relations =>
    {
        var order = BuildUpOrder.Of(Stages, relations);
        var same = relations.Where(r => r.Kind == RelationKind.Same);
        var kept = order.Links.SelectMany(l => l.Relations).Concat(same).ToList();
        Assert.Equal(SlowOrder.Reach(Stages, relations), SlowOrder.Reach(Stages, kept));
        Assert.Equal(relations.Count, kept.Count + order.Redundant.Count);
        foreach (var link in order.Links.Where(l => !l.IsContradicted && !order.Contradictions.Any()))
            Assert.NotEqual(SlowOrder.Reach(Stages, relations), SlowOrder.Reach(Stages, kept.Except(link.Relations)));
    }, iter: 500);

    [Fact]
    public void A_stage_over_itself_contradicts_itself_alone()
    {
        var order = BuildUpOrder.Of(Stages, [new BuildUpRelation(Guid.NewGuid(), Stages[0].Id, RelationKind.Over, Stages[0].Id, "a slip")]);
        Assert.Single(Assert.Single(order.Contradictions).Chain);
    }

    [Fact]
    public void Stages_that_are_the_same_in_a_ring_are_one_and_no_contradiction()
    {
        var ring = Enumerable.Range(0, 4).Select(i => new BuildUpRelation(Guid.NewGuid(), Stages[i].Id, RelationKind.Same, Stages[(i + 1) % 4].Id, "seen")).ToList();
        var order = BuildUpOrder.Of(Stages, ring);
        Assert.Empty(order.Contradictions);
        Assert.Equal(4, order.Groups.Max(g => g.Stages.Count));
    }

    [Fact]
    public void A_stage_that_is_not_there_is_a_problem_in_words() =>
        Assert.Equal("unknown-stage", Assert.Throws<InputProblem>(() => BuildUpOrder.Of(Stages, [new(Guid.NewGuid(), Stages[0].Id, RelationKind.Over, Guid.NewGuid(), "")])).Code);

    [Fact]
    public void Nothing_has_no_order() => Assert.Empty(BuildUpOrder.Of([], []).Groups);

    [Fact]
    public void All_of_twenty_planted_among_five_thousand_are_found_with_their_shortest_chains()
    {
        var (stages, relations, planted) = Planted.Make(seed: 7);
        Assert.Equal(5000, relations.Count);
        var order = BuildUpOrder.Of(stages, relations);
        var chains = order.Contradictions.SelectMany(c => c.Further.Prepend(c.Chain)).ToList();
        Assert.All(planted, p => Assert.Equal(SlowOrder.FewestBack(relations, p), chains.Where(c => c.Contains(p)).Min(c => c.Count)));
        Assert.All(chains, c => Assert.Contains(c, planted.Contains));
        Assert.Equal(20, order.Contradictions.Count);
    }

    private static void AssertLeadsBack(IReadOnlyList<BuildUpRelation> chain)
    {
        // The chain is walked from the first relation's upper stage; the same may be walked both ways.
        var at = chain[0].Kind == RelationKind.Under ? chain[0].Other : chain[0].Stage;
        var start = at;
        foreach (var r in chain)
            at = r.Kind switch
            {
                RelationKind.Over => Step(r.Stage, r.Other, at),
                RelationKind.Under => Step(r.Other, r.Stage, at),
                _ => at == r.Stage ? r.Other : Step(r.Other, r.Stage, at),
            };
        Assert.Equal(start, at);
    }

    private static Guid Step(Guid from, Guid to, Guid at)
    {
        Assert.Equal(from, at);
        return to;
    }
}
