using Sandarac.Materials.Tables;

namespace Sandarac.Materials.Luminescence;

/// <summary>How a material, or a state of a surface, usually looks under 365 nm.</summary>
/// <param name="Material">What it is.</param>
/// <param name="Appearance">How it looks, in words.</param>
/// <param name="Note">What to bear in mind; may be empty.</param>
/// <param name="Flag">READ, READ in part or presumed, or MEMORY for what was recalled and not verified. Shown beside it.</param>
/// <param name="Source">Where it is known from; may be empty.</param>
public sealed record LuminescenceAppearance(string Material, string Appearance, string Note, string Flag, string Source)
{
    /// <summary>All rows of the table.</summary>
    public static IReadOnlyList<LuminescenceAppearance> All { get; } = [.. Table.Rows("luminescence.csv").Select(f => new LuminescenceAppearance(f[0], f[1], f[2], f[3], f[4]))];
}
