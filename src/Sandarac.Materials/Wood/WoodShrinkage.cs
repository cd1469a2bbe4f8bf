using System.Globalization;
using Sandarac.Materials.Tables;

namespace Sandarac.Materials.Wood;

/// <summary>How far a wood shrinks from green to oven-dry, as a share of its green size.</summary>
/// <param name="Wood">Name: "oak".</param>
/// <param name="Genus">Genus.</param>
/// <param name="TangentialPercent">Along the growth rings, in per cent.</param>
/// <param name="RadialPercent">Across the growth rings, in per cent.</param>
/// <param name="Flag">READ, or MEMORY for what was recalled and not verified. Shown beside it.</param>
/// <param name="Source">Where it is known from.</param>
public sealed record WoodShrinkage(string Wood, string Genus, double TangentialPercent, double RadialPercent, string Flag, string Source)
{
    /// <summary>All woods of the table.</summary>
    public static IReadOnlyList<WoodShrinkage> All { get; } = [.. Table.Rows("wood-shrinkage.csv").Select(f => new WoodShrinkage(f[0], f[1], Number(f[2]), Number(f[3]), f[4], f[5]))];

    /// <summary>The wood of a name or genus, whatever its case; null when the table has none.</summary>
    public static WoodShrinkage? Find(string name) => All.FirstOrDefault(w => w.Wood.Equals(name.Trim(), StringComparison.OrdinalIgnoreCase) || w.Genus.Equals(name.Trim(), StringComparison.OrdinalIgnoreCase));

    /// <summary>
    /// Shrinkage in per cent of a board whose width stands at an angle to the radial direction: S_R cos^2 a + S_T sin^2 a, the strain of an orthotropic body in a turned direction (no shear between the two; rings taken as flat over the board).
    /// </summary>
    /// <param name="ringAngle">Degrees between the board's width and the radial direction: 0 for a radial (quarter-sawn) board, 90 for a tangential one.</param>
    public double PercentAt(double ringAngle)
    {
        var (sine, cosine) = Math.SinCos(ringAngle * Math.PI / 180);
        return RadialPercent * cosine * cosine + TangentialPercent * sine * sine;
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
