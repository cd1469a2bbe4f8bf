using Sandarac.Materials.Tables;

namespace Sandarac.Materials.Solvents;

/// <summary>Pairs of solvents that part into two layers, or mix only in part, at usual shares and temperature. All from memory; a third solvent can bring them together, which only a trial tells.</summary>
public static class Miscibility
{
    private static readonly Dictionary<string, string[]> Groups = Table.Rows("miscibility-groups.csv").ToDictionary(f => f[0], f => f[1].Split(';').Select(n => SolventTable.Get(n).Name).ToArray());

    private static readonly HashSet<(string, string)> Apart = [.. Table.Rows("immiscible.csv").SelectMany(f => Groups[f[0]].SelectMany(a => Groups[f[1]].SelectMany(b => new[] { (a, b), (b, a) })))];

    /// <summary>Whether two solvents are known not to mix freely.</summary>
    public static bool PartInto(Solvent first, Solvent second) => Apart.Contains((first.Name, second.Name));

    /// <summary>A note naming the parts of a mixture that are known not to mix freely; null when none are.</summary>
    public static string? Note(Mixture mixture)
    {
        var solvents = mixture.Parts.Select(p => p.Solvent).ToList();
        var pairs = solvents.SelectMany((a, i) => solvents.Skip(i + 1).Where(b => PartInto(a, b)).Select(b => $"{a.Name} and {b.Name}")).ToList();
        return pairs.Count == 0 ? null : $"Known not to mix freely, from memory: {string.Join("; ", pairs)}. A further solvent can bring them together.";
    }
}
