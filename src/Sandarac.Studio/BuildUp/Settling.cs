namespace Sandarac.Studio.BuildUp;

/// <summary>A place where a stage can be seen: a zone, a sample, where two zones overlap.</summary>
/// <param name="Stage">The stage.</param>
/// <param name="Place">What the place is called, in words: "the zone sky".</param>
public sealed record Occurrence(Guid Stage, string Place);

/// <summary>Two groups whose order nothing determines, and where a look or a sample would settle it.</summary>
/// <param name="First">One group.</param>
/// <param name="Second">The other.</param>
/// <param name="Places">Places where both occur; none when nobody knows of one.</param>
public sealed record OpenPair(StageGroup First, StageGroup Second, IReadOnlyList<string> Places);

/// <summary>What would settle an order that is open.</summary>
public static class Settling
{
    /// <summary>Every pair whose order is open, but for supports, which lie under all that is on them: first those that can be looked at somewhere, among them those that would date a stage.</summary>
    public static IReadOnlyList<OpenPair> Of(BuildUpOrder order, IEnumerable<Occurrence> occurrences)
    {
        var places = occurrences.ToLookup(o => o.Stage, o => o.Place);
        var of = order.Groups.Select(g => g.Stages.SelectMany(s => places[s.Id]).Distinct().ToList()).ToList();
        return [.. order.Undetermined().Where(p => p.First.Kind != StageKind.Support && p.Second.Kind != StageKind.Support).Select(p => new OpenPair(p.First, p.Second, [.. of[p.First.Index].Intersect(of[p.Second.Index]).Order(StringComparer.Ordinal)]))
            .OrderBy(p => p.Places.Count == 0).ThenBy(p => !Dates(p.First) && !Dates(p.Second))];
    }

    private static bool Dates(StageGroup group) => group.Kind is StageKind.Varnish or StageKind.Intervention;
}
