namespace Sandarac.Materials.Solvents;

/// <summary>Hansen's three parts of the cohesion of a liquid or a solid, MPa^0.5. C. M. Hansen, Hansen Solubility Parameters: A User's Handbook.</summary>
/// <param name="Dispersion">Dispersion forces, dD.</param>
/// <param name="Polar">Polar forces, dP.</param>
/// <param name="Hydrogen">Hydrogen bonds, dH.</param>
public sealed record HansenParameters(double Dispersion, double Polar, double Hydrogen)
{
    /// <summary>Total (Hildebrand) parameter, MPa^0.5: the root of the parts' squares.</summary>
    public double Total => Math.Sqrt(Dispersion * Dispersion + Polar * Polar + Hydrogen * Hydrogen);

    /// <summary>Teas fractions derived from the parts: each as a share of their sum. Not the same as the published tables of Teas fractions.</summary>
    public TeasFractions Teas => new(100 * Dispersion / Sum, 100 * Polar / Sum, 100 * Hydrogen / Sum);

    private double Sum => Dispersion + Polar + Hydrogen;

    /// <summary>Hansen's distance, MPa^0.5: Ra^2 = 4 (dD1 - dD2)^2 + (dP1 - dP2)^2 + (dH1 - dH2)^2.</summary>
    public double DistanceTo(HansenParameters other)
    {
        var (d, p, h) = (2 * (Dispersion - other.Dispersion), Polar - other.Polar, Hydrogen - other.Hydrogen);
        return Math.Sqrt(d * d + p * p + h * h);
    }
}
