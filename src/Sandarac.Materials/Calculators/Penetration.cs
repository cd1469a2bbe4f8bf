namespace Sandarac.Materials.Calculators;

/// <summary>How the time that a solvent takes through a film goes with the film's thickness: as its square, by diffusion (S. Michalski 1990, read in the abstract).</summary>
public static class Penetration
{
    /// <summary>Time through another thickness, in the unit of <paramref name="time"/>. Swelling, cracks and evaporation are left out.</summary>
    /// <param name="time">Time through the known thickness.</param>
    /// <param name="thickness">The known thickness, in any unit.</param>
    /// <param name="other">The other thickness, in the same unit.</param>
    /// <exception cref="Imaging.InputProblem">A figure is not above 0.</exception>
    public static double Time(double time, double thickness, double other)
    {
        var ratio = Given.Positive(other, "other thickness", "the unit of the first") / Given.Positive(thickness, "thickness", "um");
        return Given.Positive(time, "time", "s") * ratio * ratio;
    }
}
