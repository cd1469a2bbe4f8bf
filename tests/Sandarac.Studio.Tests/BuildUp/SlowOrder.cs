using Sandarac.Studio.BuildUp;

namespace Sandarac.Studio.Tests.BuildUp;

/// <summary>The slow, obvious way: pairs that follow are added until none is new.</summary>
internal static class SlowOrder
{
    /// <summary>Pairs of which the first lies over the second, by any chain that orders.</summary>
    public static HashSet<(Guid Upper, Guid Lower)> Reach(IReadOnlyList<BuildUpStage> stages, IEnumerable<BuildUpRelation> relations)
    {
        var steps = relations.SelectMany(Steps).ToList();
        HashSet<(Guid From, Guid To, bool Orders)> reach = [.. steps];
        for (var before = -1; before != reach.Count;)
        {
            before = reach.Count;
            foreach (var (from, to, orders) in reach.ToList())
                foreach (var step in steps.Where(s => s.From == to)) reach.Add((from, step.To, orders || step.Orders));
        }
        return [.. reach.Where(r => r.Orders && stages.Any(s => s.Id == r.From)).Select(r => (r.From, r.To))];
    }

    /// <summary>The fewest relations, the given one among them, that lead from its upper stage back to it; null when none do. Wave by wave.</summary>
    public static int? FewestBack(IReadOnlyList<BuildUpRelation> relations, BuildUpRelation relation)
    {
        var steps = relations.SelectMany(Steps).ToLookup(s => s.From, s => s.To);
        var (_, lower, _) = Steps(relation).First();
        var upper = Steps(relation).First().From;
        HashSet<Guid> wave = [lower], seen = [lower];
        for (var length = 1; wave.Count > 0; length++)
        {
            if (wave.Contains(upper)) return length;
            wave = [.. wave.SelectMany(s => steps[s]).Where(seen.Add)];
        }
        return null;
    }

    private static IEnumerable<(Guid From, Guid To, bool Orders)> Steps(BuildUpRelation r) => r.Kind switch
    {
        RelationKind.Over => [(r.Stage, r.Other, true)],
        RelationKind.Under => [(r.Other, r.Stage, true)],
        _ => [(r.Stage, r.Other, false), (r.Other, r.Stage, false)],
    };
}
