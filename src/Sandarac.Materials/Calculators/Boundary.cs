namespace Sandarac.Materials.Calculators;

/// <summary>What a boundary between two transparent materials reflects of light that falls on it upright. Fresnel: R = ((n1 - n2) / (n1 + n2))^2.</summary>
public static class Boundary
{
    /// <summary>Reflected share, 0 to 1.</summary>
    /// <param name="first">Refractive index of one material, 1 to 4; air has 1.</param>
    /// <param name="second">That of the other.</param>
    /// <exception cref="Imaging.InputProblem">An index lies outside.</exception>
    public static double Reflectance(double first, double second)
    {
        var (a, b) = (Given.Within(first, 1, 4, "refractive index", "1"), Given.Within(second, 1, 4, "refractive index", "1"));
        return (a - b) * (a - b) / ((a + b) * (a + b));
    }
}
