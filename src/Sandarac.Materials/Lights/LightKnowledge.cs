using Sandarac.Materials.Tables;

namespace Sandarac.Materials.Lights;

/// <summary>What is known of a kind of photograph: what it shows, how it is usually taken, what to beware of, and where this is known from.</summary>
/// <param name="Code">Code of the light: VIS, UVL, ...</param>
/// <param name="Name">What a person calls it.</param>
/// <param name="Shows">What it shows.</param>
/// <param name="SetUp">Usual set-up.</param>
/// <param name="Caution">The usual caution, deferring to local rules; null when there is none.</param>
/// <param name="Source">Where this is known from, and whether it was read or recalled; shown beside it.</param>
public sealed record LightKnowledge(string Code, string Name, string Shows, string SetUp, string? Caution, string Source)
{
    /// <summary>All kinds, in the order of the table.</summary>
    public static IReadOnlyList<LightKnowledge> All { get; } = [.. Table.Rows("lights.csv").Select(f => new LightKnowledge(f[0], f[1], f[2], f[3], f[4].Length == 0 ? null : f[4], f[5]))];

    /// <summary>What is known of the light with this code; null when nothing is.</summary>
    public static LightKnowledge? Find(string code) => All.FirstOrDefault(l => l.Code == code);
}
