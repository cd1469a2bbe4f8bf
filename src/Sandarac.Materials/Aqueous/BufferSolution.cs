using Sandarac.Imaging;

namespace Sandarac.Materials.Aqueous;

/// <summary>A buffer brought to a pH with a base of one kind (or an acid), as a conservator makes it: acid weighed out, pH set, made up.</summary>
/// <param name="Forms">Formula and concentration of each form, mol/L.</param>
/// <param name="CounterIon">Formula of the ion that the base or acid brings.</param>
/// <param name="CounterConcentration">mol/L.</param>
/// <param name="IonicStrength">mol/L: half the sum of concentrations times charges squared.</param>
/// <param name="ConductivityUpper">Sum of the ions' limiting conductivities, mS/cm at 25 C (Kohlrausch): what is measured is lower, the more so the stronger the solution. No answer where an ion's is not known.</param>
public sealed record BufferSolution(IReadOnlyList<(string Formula, double Concentration)> Forms, string CounterIon, double CounterConcentration, double IonicStrength, Conductivity ConductivityUpper)
{
    private const double IonProduct = 1e-14;

    /// <summary>Computes it.</summary>
    /// <param name="buffer">Which.</param>
    /// <param name="concentration">Of all forms together, mol/L, up to 1.</param>
    /// <param name="ph">0 to 14.</param>
    /// <param name="cation">Of the base that sets the pH: "Na+", "K+" or "NH4+". Where the solution needs an anion instead, chloride.</param>
    /// <param name="davies">Whether the constants are corrected for the ionic strength, to agreement within 1e-10.</param>
    /// <exception cref="InputProblem">A figure lies outside, the cation is none of these, or the ionic strength passes what Davies' equation holds for.</exception>
    public static BufferSolution Of(BufferSystem buffer, double concentration, double ph, string cation, bool davies)
    {
        Given.Within(concentration, 1e-6, 1, "concentration", "mol/L");
        Given.Within(ph, 0, 14, "pH", "pH");
        if (cation is not ("Na+" or "K+" or "NH4+")) throw new InputProblem("unknown-cation", cation, $"\"{cation}\" is no base's cation that is known here.", "Give Na+, K+ or NH4+.");
        var solution = At(buffer, concentration, ph, cation, 0);
        for (var (round, last) = (0, 0.0); davies && round < 100 && Math.Abs(solution.IonicStrength - last) > 1e-10; round++)
        {
            last = solution.IonicStrength;
            solution = At(buffer, concentration, ph, cation, last);
        }
        return solution;
    }

    private static BufferSolution At(BufferSystem buffer, double concentration, double ph, string cation, double strength)
    {
        var shares = buffer.Shares(ph, strength);
        var (hydrogen, hydroxide) = (Math.Pow(10, -ph), IonProduct / Math.Pow(10, -ph));
        var charge = shares.Select((s, i) => s * concentration * buffer.ChargeOf(i)).Sum() + hydrogen - hydroxide;
        var counter = charge <= 0 ? cation : "Cl-";
        (string Formula, int Charge, double Concentration)[] all =
            [.. shares.Select((s, i) => (buffer.Forms[i], buffer.ChargeOf(i), s * concentration)), ("H+", 1, hydrogen), ("OH-", -1, hydroxide), (counter, Math.Sign(-charge), Math.Abs(charge))];
        return new([.. all[..shares.Count].Select(f => (f.Formula, f.Concentration))], counter, Math.Abs(charge), all.Sum(i => i.Concentration * i.Charge * i.Charge) / 2, Conductivity.Of(all));
    }
}

/// <summary>A conductivity, or why there is none.</summary>
/// <param name="MilliSiemensPerCm">mS/cm; null when there is no answer.</param>
/// <param name="NoAnswer">Why there is none.</param>
public sealed record Conductivity(double? MilliSiemensPerCm, string? NoAnswer)
{
    /// <summary>An ion of which less than this share of all ions is there may be left out.</summary>
    private const double Negligible = 1e-3;

    internal static Conductivity Of(IReadOnlyList<(string Formula, int Charge, double Concentration)> all)
    {
        var ions = all.Where(i => i.Charge != 0).ToList();
        var unknown = ions.Where(i => Ion.Find(i.Formula) is null && i.Concentration > Negligible * ions.Sum(o => o.Concentration)).Select(i => i.Formula).ToList();
        return unknown.Count > 0 ? new(null, $"The table has no conductivity of {string.Join(" and ", unknown)}.") : new(ions.Sum(i => i.Concentration * (Ion.Find(i.Formula)?.MolarConductivity ?? 0)), null);
    }
}
