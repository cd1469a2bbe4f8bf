namespace Sandarac.Studio.BuildUp;

/// <summary>Relations that cannot all be true: following them from a stage downwards leads back to it.</summary>
/// <param name="Chain">The fewest relations that make it, each beginning at the stage where the one before ends.</param>
/// <param name="Shared">The relation that stands in this chain and in every further one: doubt it first. Null when there is no further one.</param>
/// <param name="Further">Other chains that contain the shared relation, shortest first.</param>
public sealed record Contradiction(IReadOnlyList<BuildUpRelation> Chain, BuildUpRelation? Shared, IReadOnlyList<IReadOnlyList<BuildUpRelation>> Further);

/// <summary>Finds what contradicts itself.</summary>
internal static class Contradictions
{
    /// <summary>
    /// Every relation of order that takes part in a contradiction stands in a listed chain, and no chain that contains it is shorter. All cycles would be too many to list:
    /// their number grows exponentially. Chains are gathered under the relation that most of them share.
    /// </summary>
    public static IReadOnlyList<Contradiction> Of(EvidenceGraph graph, IReadOnlyList<BuildUpRelation> relations, int[] component)
    {
        var chains = Covering(Shortest(graph, relations, component), relations);
        List<Contradiction> found = [];
        while (chains.Count > 0)
        {
            var shared = chains.SelectMany(c => c).CountBy(r => r).OrderByDescending(c => c.Value).ThenBy(c => c.Key).First().Key;
            var together = chains.Where(c => c.Contains(shared)).ToList();
            chains = chains.Where(c => !c.Contains(shared)).ToList();
            var told = together.Select(c => (IReadOnlyList<BuildUpRelation>)[.. c.Select(r => relations[r])]).ToList();
            found.Add(new Contradiction(told[0], told.Count > 1 ? relations[shared] : null, told[1..]));
        }
        return [.. found.OrderBy(c => c.Chain.Count)];
    }

    /// <summary>For each relation of order that leads back to itself: a shortest such chain, beginning with it.</summary>
    private static IEnumerable<List<int>> Shortest(EvidenceGraph graph, IReadOnlyList<BuildUpRelation> relations, int[] component)
    {
        var suspects = Enumerable.Range(0, relations.Count).Where(r => relations[r].Orders && component[graph.Ends[r].Upper] == component[graph.Ends[r].Lower]);
        foreach (var below in suspects.GroupBy(r => graph.Ends[r].Lower))
        {
            graph.Explore(below.Key, component);
            foreach (var r in below) yield return [r, .. graph.ChainTo(graph.Ends[r].Upper)];
        }
    }

    /// <summary>Shortest first, those whose first relation stands in one already listed left out: that one is as short.</summary>
    private static List<List<int>> Covering(IEnumerable<List<int>> chains, IReadOnlyList<BuildUpRelation> relations)
    {
        var covered = new bool[relations.Count];
        List<List<int>> listed = [];
        foreach (var chain in chains.OrderBy(c => c.Count).ThenBy(c => c[0]))
        {
            if (covered[chain[0]]) continue;
            listed.Add(chain);
            foreach (var r in chain) covered[r] = true;
        }
        return listed;
    }
}
