using System.Text.RegularExpressions;
using Sandarac.Materials.Solvents;
using Sandarac.Materials.Tables;

namespace Sandarac.Materials.Safety;

/// <summary>Two groups of agents that must not meet, on the object, in a bottle or in the waste.</summary>
/// <param name="GroupA">One group.</param>
/// <param name="GroupB">The other.</param>
/// <param name="Danger">What happens.</param>
/// <param name="Source">Where it is known from.</param>
public sealed record Incompatibility(string GroupA, string GroupB, string Danger, string Source)
{
    private static readonly Dictionary<string, Regex> Groups = Table.Rows("agent-groups.csv").ToDictionary(f => f[0], f => new Regex($@"\b(?:{string.Join('|', f[1].Split(';').Select(Regex.Escape))})\b", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant));

    /// <summary>The pairs that matter most in a studio; far from all there are.</summary>
    public static IReadOnlyList<Incompatibility> All { get; } = [.. Table.Rows("incompatible.csv").Select(f => new Incompatibility(f[0], f[1], f[2], f[3]))];

    /// <summary>The groups that an agent's name puts it into, and its statements of flammability where it is a solvent of the table.</summary>
    public static IReadOnlySet<string> GroupsOf(string agent) =>
        Groups.Where(g => g.Value.IsMatch(agent)).Select(g => g.Key).Concat(SolventTable.Find(agent)?.Bears("flammable") == true ? ["flammable solvent"] : []).ToHashSet();

    /// <summary>What is known against two agents' meeting.</summary>
    public static IEnumerable<Incompatibility> Between(string first, string second)
    {
        var (a, b) = (GroupsOf(first), GroupsOf(second));
        return All.Where(i => a.Contains(i.GroupA) && b.Contains(i.GroupB) || a.Contains(i.GroupB) && b.Contains(i.GroupA));
    }
}
