using Sandarac.Materials.Solvents;

namespace Sandarac.Materials.Calculators;

/// <summary>
/// Vapour in a room when a liquid has evaporated in it and mixed with all its air: the worst that an even mixture can be. Near the work, and while it evaporates, concentrations are far higher.
/// </summary>
/// <param name="MgPerM3">mg/m3.</param>
/// <param name="Ppm">Parts per million by volume at 25 C and 101.325 kPa, where a mole takes 24.45 L.</param>
public sealed record RoomVapour(double MgPerM3, double Ppm)
{
    /// <summary>L/mol of a gas at 25 C and 101.325 kPa: RT/p.</summary>
    public const double MolarVolumeL = 24.45;

    /// <summary>All of a liquid in all of a room's air, without ventilation.</summary>
    /// <param name="millilitres">Liquid that evaporates, mL.</param>
    /// <param name="density">g/mL.</param>
    /// <param name="molarMass">g/mol.</param>
    /// <param name="roomM3">Air of the room, m3.</param>
    /// <exception cref="Imaging.InputProblem">A figure is not above 0.</exception>
    public static RoomVapour Of(double millilitres, double density, double molarMass, double roomM3)
    {
        var milligrams = 1000 * Given.Positive(millilitres, "volume", "mL") * Given.Positive(density, "density", "g/mL") / Given.Positive(roomM3, "room", "m3");
        return new(milligrams, milligrams * MolarVolumeL / Given.Positive(molarMass, "molar mass", "g/mol"));
    }

    /// <summary>The same of a solvent of the table.</summary>
    /// <returns>No answer where its density or molar mass is not known.</returns>
    public static Answer<RoomVapour> Of(Solvent solvent, double millilitres, double roomM3) =>
        solvent is { Density: { } density, MolarMass: { } mass } ? new(Of(millilitres, density.Value, mass, roomM3), null) : new(null, $"The table has no density or no molar mass of {solvent.Name}.");

    /// <summary>Concentration as a multiple of a solvent's lowest limit; null when the table has none.</summary>
    public double? ShareOfLimit(Solvent solvent) => solvent.Limit is { } limit ? Ppm / limit.LowestPpm : null;

    /// <summary>Concentration as a share of the lower explosive limit; null when the table has none.</summary>
    public double? ShareOfExplosive(Solvent solvent) => solvent.Explosive is { } limits ? Ppm / (limits.Value.Low * 1e4) : null;

    /// <summary>What is left after a time of ventilation: c = c0 exp(-n t), the air mixing at once.</summary>
    /// <param name="changesPerHour">Air changes an hour, 0 or more.</param>
    /// <param name="hours">0 or more.</param>
    /// <exception cref="Imaging.InputProblem">A figure cannot be.</exception>
    public RoomVapour After(double changesPerHour, double hours)
    {
        var left = Math.Exp(-Given.NotNegative(changesPerHour, "air changes", "an hour") * Given.NotNegative(hours, "time", "hours"));
        return new(MgPerM3 * left, Ppm * left);
    }

    /// <summary>Hours of ventilation until a concentration is reached; 0 when it is not exceeded.</summary>
    /// <param name="ppm">The concentration, ppm.</param>
    /// <param name="changesPerHour">Air changes an hour, above 0.</param>
    /// <exception cref="Imaging.InputProblem">A figure is not above 0.</exception>
    public double HoursUntil(double ppm, double changesPerHour) => Math.Max(0, Math.Log(Ppm / Given.Positive(ppm, "concentration", "ppm"))) / Given.Positive(changesPerHour, "air changes", "an hour");
}
