using Sandarac.Materials.Tables;

namespace Sandarac.Materials.Resins;

/// <summary>A resin, a film or a wax as it is used in varnishes and media.</summary>
/// <param name="Material">Name.</param>
/// <param name="Class">What it is chemically; empty where the name says it.</param>
/// <param name="RefractiveIndex">At the sodium line.</param>
/// <param name="GlassTransitionC">Glass transition, C; null when the table lacks it.</param>
/// <param name="Solubility">In words.</param>
/// <param name="Ageing">In words.</param>
/// <param name="Source">Where all of it is known from.</param>
public sealed record Resin(string Material, string Class, Interval RefractiveIndex, Interval? GlassTransitionC, string Solubility, string Ageing, string Source)
{
    /// <summary>All of the table; most rows are from memory, as their source says.</summary>
    public static IReadOnlyList<Resin> All { get; } = [.. Table.Rows("resins.csv").Select(f => new Resin(f[0], f[1], Interval.Parse(f[2]), f[3].Length == 0 ? null : Interval.Parse(f[3]), f[4], f[5], f[6]))];
}
