using Sandarac.Imaging;

namespace Sandarac.Studio.BuildUp;

/// <summary>How two groups of stages lie to each other, by all that is known.</summary>
public enum Standing
{
    /// <summary>The first lies over the second.</summary>
    Over,

    /// <summary>The first lies under the second.</summary>
    Under,

    /// <summary>Nothing orders them.</summary>
    Undetermined,

    /// <summary>Relations say both.</summary>
    Contradicted,
}

/// <summary>Stages that are one and the same.</summary>
/// <param name="Index">Its place in a list from the bottom up.</param>
/// <param name="Level">How many groups lie under it, each over the next, at most.</param>
/// <param name="Stages">The stages, in the order given.</param>
/// <param name="Component">Groups of one number contradict each other; between two numbers order is decided.</param>
public sealed record StageGroup(int Index, int Level, IReadOnlyList<BuildUpStage> Stages, int Component)
{
    /// <summary>Its stages' names, each once.</summary>
    public string Name { get; } = string.Join(" = ", Stages.Select(s => s.Name).Distinct());

    /// <summary>What it is: the first kind that says something.</summary>
    public StageKind Kind { get; } = Stages.Select(s => s.Kind).Append(StageKind.Other).First(k => k != StageKind.Other || Stages.All(s => s.Kind == StageKind.Other));
}

/// <summary>One group lies over another without a known one between.</summary>
/// <param name="Upper">The upper one.</param>
/// <param name="Lower">The lower one.</param>
/// <param name="Relations">What says so; several are evidence for each other.</param>
/// <param name="IsContradicted">Whether other relations say the opposite.</param>
public sealed record OrderLink(StageGroup Upper, StageGroup Lower, IReadOnlyList<BuildUpRelation> Relations, bool IsContradicted);

/// <summary>The order in which a painting was made and altered, merged from relations between its stages: a partial order, with what contradicts it.</summary>
public sealed class BuildUpOrder
{
    private readonly PartialOrder _order;

    private BuildUpOrder(IReadOnlyList<BuildUpStage> stages, IReadOnlyList<BuildUpRelation> relations)
    {
        var graph = new EvidenceGraph(stages, relations);
        var component = graph.Components();
        var groupOf = SameAs.Groups(stages.Count, Enumerable.Range(0, relations.Count).Where(r => !relations[r].Orders).Select(r => graph.Ends[r]));
        Contradictions = BuildUp.Contradictions.Of(graph, relations, component);
        _order = new PartialOrder(component.Length == 0 ? 0 : component.Max() + 1, graph.Ends.Select(e => (component[e.Upper], component[e.Lower])));
        var groups = Arranged(stages, graph.Ends, groupOf, component, _order);
        Groups = [.. groups.Values.OrderBy(g => g.Index)];
        var between = Enumerable.Range(0, relations.Count).Where(r => relations[r].Orders)
            .Select(r => (Relation: relations[r], Upper: groups[groupOf[graph.Ends[r].Upper]], Lower: groups[groupOf[graph.Ends[r].Lower]])).ToLookup(r => IsNeeded(r.Upper, r.Lower));
        Links = [.. between[true].GroupBy(r => (r.Upper, r.Lower), r => r.Relation).Select(g => new OrderLink(g.Key.Upper, g.Key.Lower, [.. g], g.Key.Upper.Component == g.Key.Lower.Component))];
        Redundant = [.. between[false].Select(r => r.Relation)];
    }

    /// <summary>Groups of stages that are the same, from the bottom up; those whose order is not known stand in the order given.</summary>
    public IReadOnlyList<StageGroup> Groups { get; }

    /// <summary>What contradicts itself, shortest chains first.</summary>
    public IReadOnlyList<Contradiction> Contradictions { get; }

    /// <summary>The order without what follows from it: its transitive reduction, and every relation inside a contradiction.</summary>
    public IReadOnlyList<OrderLink> Links { get; }

    /// <summary>Relations that follow from others.</summary>
    public IReadOnlyList<BuildUpRelation> Redundant { get; }

    /// <summary>Merges relations into one order.</summary>
    /// <param name="stages">Stages with distinct keys.</param>
    /// <param name="relations">Relations between them.</param>
    /// <exception cref="InputProblem">A relation names a stage that is not among them ("unknown-stage").</exception>
    public static BuildUpOrder Of(IReadOnlyList<BuildUpStage> stages, IReadOnlyList<BuildUpRelation> relations) => new(stages, relations);

    /// <summary>How two groups of this order lie to each other.</summary>
    public Standing Between(StageGroup first, StageGroup second) =>
        first.Component == second.Component ? Standing.Contradicted
        : _order.IsOver(first.Component, second.Component) ? Standing.Over
        : _order.IsOver(second.Component, first.Component) ? Standing.Under : Standing.Undetermined;

    /// <summary>Every pair whose order nothing determines, lower index first.</summary>
    public IEnumerable<(StageGroup First, StageGroup Second)> Undetermined() =>
        Groups.SelectMany(a => Groups.Skip(a.Index + 1).Where(b => Between(a, b) == Standing.Undetermined).Select(b => (a, b)));

    private bool IsNeeded(StageGroup upper, StageGroup lower) => upper.Component == lower.Component || _order.IsDirect(upper.Component, lower.Component);

    /// <summary>Numbers the groups from the bottom up, those that contradict each other in one place. Inside a contradiction those with more under them than over them stand higher.</summary>
    private static Dictionary<int, StageGroup> Arranged(IReadOnlyList<BuildUpStage> stages, IReadOnlyList<(int Upper, int Lower)> ends, int[] groupOf, int[] component, PartialOrder order)
    {
        var rise = new int[stages.Count];
        foreach (var (upper, lower) in ends.Where(e => component[e.Upper] == component[e.Lower]))
        {
            rise[groupOf[upper]]++;
            rise[groupOf[lower]]--;
        }
        var first = Enumerable.Range(0, stages.Count).GroupBy(s => component[s]).ToDictionary(g => g.Key, g => g.Min());
        return Enumerable.Range(0, stages.Count).GroupBy(s => groupOf[s]).OrderBy(g => order.Level(component[g.Key])).ThenBy(g => first[component[g.Key]]).ThenBy(g => rise[g.Key])
            .Select((g, i) => (g.Key, Group: new StageGroup(i, order.Level(component[g.Key]), [.. g.Select(s => stages[s])], component[g.Key]))).ToDictionary(g => g.Key, g => g.Group);
    }
}
