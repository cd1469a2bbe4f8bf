using System.Globalization;

namespace Sandarac.Studio.BuildUp;

/// <summary>A layer of a sample that shows a stage.</summary>
/// <param name="Stage">The stage.</param>
/// <param name="Sample">The sample's number.</param>
/// <param name="LowUm">Thinnest, um; null when nobody measured.</param>
/// <param name="HighUm">Thickest, um; null when nobody measured.</param>
public sealed record LayerSeen(Guid Stage, string Sample, double? LowUm, double? HighUm);

/// <summary>Tells a build-up in sentences, from the support up.</summary>
public static class BuildUpProse
{
    /// <summary>One sentence or two a stage: what it lies over, in which samples, how thick.</summary>
    /// <param name="order">The build-up.</param>
    /// <param name="layers">Where the samples show its stages.</param>
    /// <param name="samples">Numbers of all samples with layers.</param>
    public static IReadOnlyList<string> Of(BuildUpOrder order, IEnumerable<LayerSeen> layers, IReadOnlyList<string> samples)
    {
        var seen = layers.ToLookup(l => l.Stage);
        var lowers = order.Links.Where(l => !l.IsContradicted).ToLookup(l => l.Upper.Component, l => l.Lower);
        var places = order.Groups.GroupBy(g => g.Component).GroupBy(p => (p.First().Level, p.First().Kind == StageKind.Support, string.Join(' ', lowers[p.Key].Select(l => l.Index).Distinct().Order())));
        return [.. places.SelectMany(p => Sentences([.. p.Select(knot => knot.ToList())], [.. lowers[p.First().Key].Distinct()], seen, samples)),
            .. order.Contradictions.Select(c => $"What is known contradicts itself: {Chain(order, c.Chain)}.")];
    }

    /// <summary>"a, b and c".</summary>
    public static string List(IReadOnlyList<string> names) => names.Count < 2 ? string.Concat(names) : $"{string.Join(", ", names.Take(names.Count - 1))} and {names[^1]}";

    /// <summary>Groups by name; a name with a comma of its own in quotes.</summary>
    internal static string Names(IEnumerable<StageGroup> groups) => List([.. groups.Select(g => Quoted(g.Name))]);

    /// <summary>A chain in words: "the sky lies over the boat (sample 1, layer 3 over layer 2); the boat lies over ...".</summary>
    public static string Chain(BuildUpOrder order, IReadOnlyList<BuildUpRelation> chain)
    {
        var names = order.Groups.SelectMany(g => g.Stages).ToDictionary(s => s.Id, s => Quoted(s.Name));
        return string.Join("; ", chain.Select(r => $"{names[r.Upper]} {(r.Orders ? "lies over" : "is the same as")} {names[r.Lower]} ({r.Evidence})"));
    }

    /// <summary>Of places that lie over the same; a place holds several groups when their order contradicts itself.</summary>
    private static IEnumerable<string> Sentences(IReadOnlyList<List<StageGroup>> places, IReadOnlyList<StageGroup> lowers, ILookup<Guid, LayerSeen> seen, IReadOnlyList<string> samples)
    {
        var under = lowers.Count > 0 ? $"Over {Names(lowers)}" : places.All(p => p[0].Kind == StageKind.Support) ? "At the bottom" : "With nothing known under it";
        string[] told = [.. places.Select(p => Told(p, seen, samples))];
        yield return told.Length == 1 ? $"{under}, {told[0]}." : $"{under}: {string.Join("; ", told)}.";
        if (places.Count > 1 && lowers.Count > 0) yield return "None of these is known to lie over another.";
    }

    private static string Told(List<StageGroup> groups, ILookup<Guid, LayerSeen> seen, IReadOnlyList<string> samples)
    {
        var layers = groups.SelectMany(g => g.Stages).SelectMany(s => seen[s.Id]).ToList();
        string[] said = groups.Count > 1 ? [Names(groups), "whose order contradicts itself"] : [In(layers, samples), Quoted(groups[0].Name), Thick(layers)];
        return string.Join(", ", said.Where(t => t.Length > 0));
    }

    private static string In(IReadOnlyList<LayerSeen> layers, IReadOnlyList<string> samples)
    {
        var numbers = layers.Select(l => l.Sample).Distinct().ToList();
        return numbers.Count == 0 ? "" : numbers.Count == samples.Count && numbers.Count > 1 ? "in all samples" : $"in sample{(numbers.Count > 1 ? "s" : "")} {List(numbers)}";
    }

    private static string Thick(IReadOnlyList<LayerSeen> layers)
    {
        if (layers.Min(l => l.LowUm) is not { } low || layers.Max(l => l.HighUm) is not { } high) return "";
        string Um(double um) => um.ToString(um < 10 ? "0.#" : "0", CultureInfo.InvariantCulture);
        return Um(low) == Um(high) ? $"{Um(low)} um" : $"{Um(low)} to {Um(high)} um";
    }

    private static string Quoted(string name) => name.Contains(',') ? $"\u2018{name}\u2019" : name;
}
