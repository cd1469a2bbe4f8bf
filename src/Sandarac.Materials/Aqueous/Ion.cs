using Sandarac.Materials.Tables;

namespace Sandarac.Materials.Aqueous;

/// <summary>An ion in water at 25 C.</summary>
/// <param name="Formula">"HPO4-2".</param>
/// <param name="Charge">In units of the proton's.</param>
/// <param name="MolarConductivity">At infinite dilution, S cm2/mol, of a mole of ions.</param>
/// <param name="Source">Where it is known from.</param>
public sealed record Ion(string Formula, int Charge, double MolarConductivity, string Source)
{
    /// <summary>All of the table.</summary>
    public static IReadOnlyList<Ion> All { get; } = [.. Table.Rows("ions.csv").Select(f => new Ion(f[0], (int)Interval.Number(f[1]), Interval.Number(f[2]), f[3]))];

    /// <summary>The ion with this formula; null when the table lacks it.</summary>
    public static Ion? Find(string formula) => All.FirstOrDefault(i => i.Formula == formula);
}
