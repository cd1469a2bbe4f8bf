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
        var lowers = order.Links.Where(l => !l.IsContradicted).ToLookup(l => l.Upper, l => l.Lower);
        var depth = new int[order.Groups.Count];
        foreach (var group in order.Groups) depth[group.Index] = lowers[group].Select(l => 1 + depth[l.Index]).DefaultIfEmpty(0).Max();
        return [.. order.Groups.OrderBy(g => depth[g.Index]).ThenBy(g => g.Index)
            .GroupBy(g => string.Join(' ', lowers[g].Select(l => l.Index).Order())).SelectMany(together => Sentences([.. together], lowers, seen, samples)),
            .. order.Contradictions.Select(c => $"What is known contradicts itself: {Chain(order, c.Chain)}.")];
    }

    /// <summary>"a, b and c".</summary>
    public static string List(IReadOnlyList<string> names) => names.Count < 2 ? string.Concat(names) : $"{string.Join(", ", names.Take(names.Count - 1))} and {names[^1]}";

    /// <summary>A chain in words: "the sky lies over the boat (sample 1, layer 3 over layer 2); the boat lies over ...".</summary>
    public static string Chain(BuildUpOrder order, IReadOnlyList<BuildUpRelation> chain)
    {
        var names = order.Groups.SelectMany(g => g.Stages).ToDictionary(s => s.Id, s => s.Name);
        return string.Join("; ", chain.Select(r => $"{names[r.Upper]} {(r.Orders ? "lies over" : "is the same as")} {names[r.Lower]} ({r.Evidence})"));
    }

    /// <summary>Of groups that lie over the same.</summary>
    private static IEnumerable<string> Sentences(IReadOnlyList<StageGroup> together, ILookup<StageGroup, StageGroup> lowers, ILookup<Guid, LayerSeen> seen, IReadOnlyList<string> samples)
    {
        var under = lowers[together[0]].Select(l => l.Name).ToList();
        foreach (var group in together)
        {
            var layers = group.Stages.SelectMany(s => seen[s.Id]).ToList();
            var said = new[] { In(layers, samples), group.Name, Thick(layers) }.Where(t => t.Length > 0);
            yield return Capital(string.Join(", ", under.Count == 0 ? said : said.Prepend($"over {List(under)}"))) + ".";
        }
        if (together.Count > 1 && under.Count > 0) yield return $"Of {List([.. together.Select(g => g.Name)])} none is known to lie over another.";
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

    private static string Capital(string text) => char.ToUpperInvariant(text[0]) + text[1..];
}
