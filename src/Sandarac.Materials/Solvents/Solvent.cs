namespace Sandarac.Materials.Solvents;

/// <summary>A solvent of the table. Every value that the table lacks is null; every value has its source.</summary>
/// <param name="Name">What it is called here.</param>
/// <param name="Aliases">Other names that it is found by.</param>
/// <param name="Cas">CAS number, or numbers of a cut.</param>
/// <param name="MolarMass">g/mol, computed from the formula; null for cuts of petroleum and other mixtures.</param>
/// <param name="Density">g/mL at 20 C.</param>
/// <param name="Hansen">Hansen parameters, MPa^0.5.</param>
/// <param name="OtherHansen">What other sources give for them, as "HP 18.2/6.3/6.1"; empty when none differs.</param>
/// <param name="Teas">Published Teas fractions, percent.</param>
/// <param name="Boiling">Boiling point or range, C.</param>
/// <param name="Flash">Flash point, C.</param>
/// <param name="VapourPressure">kPa at 20 C.</param>
/// <param name="Explosive">Explosive limits of the vapour in air, percent by volume.</param>
/// <param name="Evaporation">Evaporation rate as a multiple of n-butyl acetate's.</param>
/// <param name="Limit">Limits in the air of a workplace.</param>
/// <param name="OtherLimits">Limits of other lists in words, from memory; empty when none.</param>
/// <param name="Iarc">IARC group; empty when none.</param>
/// <param name="HazardCodes">GHS hazard statements' codes, from memory in every row.</param>
/// <param name="OtherHazard">Further hazard in words, from memory; empty when none.</param>
/// <param name="Caution">What to bear in mind about the row; empty when nothing.</param>
public sealed record Solvent(
    string Name, IReadOnlyList<string> Aliases, string Cas, double? MolarMass, Sourced<double>? Density, Sourced<HansenParameters>? Hansen, string OtherHansen, Sourced<TeasFractions>? Teas,
    Sourced<Interval>? Boiling, Sourced<Interval>? Flash, Sourced<Interval>? VapourPressure, Sourced<Interval>? Explosive, Sourced<Interval>? Evaporation,
    ExposureLimit? Limit, string OtherLimits, string Iarc, IReadOnlyList<string> HazardCodes, string OtherHazard, string Caution)
{
    /// <summary>Source of the hazard codes.</summary>
    public const string HazardSource = "MEMORY: not verified";

    /// <summary>Vapour pressure to compute with, kPa at 20 C: the middle of a range; null when none is known or only an upper bound.</summary>
    public double? VapourPressureKPa => VapourPressure is { Value: { IsBound: false } p } ? p.Middle : null;

    /// <summary>Whether it bears a hazard statement of this code ("H351"), of codes beginning so ("H35"), or of this class ("carcinogen").</summary>
    public bool Bears(string codeOrClass) => HazardCodes.Any(c => c.StartsWith(codeOrClass, StringComparison.OrdinalIgnoreCase) || Safety.HazardStatement.Find(c)?.Class.Equals(codeOrClass, StringComparison.OrdinalIgnoreCase) == true);

    /// <summary>Whether it is called so, by name, alias or CAS number.</summary>
    public bool IsCalled(string name) => Name.Equals(name, StringComparison.OrdinalIgnoreCase) || Aliases.Contains(name, StringComparer.OrdinalIgnoreCase) || Cas.Split("; ").Contains(name);

    /// <inheritdoc/>
    public override string ToString() => Name;
}
