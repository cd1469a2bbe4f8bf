using Sandarac.Imaging;
using Sandarac.Materials.Tables;

namespace Sandarac.Materials.Aqueous;

/// <summary>An acid that buffers in one or several steps.</summary>
/// <param name="Name">"citrate".</param>
/// <param name="Acid">Its form with all protons.</param>
/// <param name="AcidCharge">Charge of that form.</param>
/// <param name="Pka">Constants at infinite dilution and 25 C, the most acid first.</param>
/// <param name="Forms">Formulas, from all protons to none.</param>
/// <param name="Source">Where the constants are known from.</param>
/// <param name="Weighed">Its form without charge, which is weighed out; empty where there is none that can be.</param>
/// <param name="MolarMass">Of that form, g/mol; 0 where there is none.</param>
public sealed record BufferSystem(string Name, string Acid, int AcidCharge, IReadOnlyList<double> Pka, IReadOnlyList<string> Forms, string Source, string Weighed, double MolarMass)
{
    /// <summary>Davies' constant for water at 25 C.</summary>
    private const double DebyeHueckel = 0.509;

    /// <summary>All of the table.</summary>
    public static IReadOnlyList<BufferSystem> All { get; } = [.. Table.Rows("buffers.csv").Select(f => new BufferSystem(f[0], f[1], (int)Interval.Number(f[2]), [.. f[3].Split(';').Select(Interval.Number)], f[4].Split(';'), f[5], f[6], f[7].Length > 0 ? Interval.Number(f[7]) : 0))];

    /// <summary>The buffer of this name.</summary>
    /// <exception cref="InputProblem">None has it ("unknown-buffer").</exception>
    public static BufferSystem Get(string name) => All.FirstOrDefault(b => b.Name == name) ?? throw new InputProblem("unknown-buffer", name, $"No buffer of the table is called \"{name}\".", $"Choose one of: {string.Join(", ", All.Select(b => b.Name))}.");

    /// <summary>Charge of the form that has lost so many protons.</summary>
    public int ChargeOf(int lost) => AcidCharge - lost;

    /// <summary>Shares of the forms at a pH, from all protons to none, by Henderson and Hasselbalch: each is its neighbour times 10^(pH - pKa).</summary>
    /// <param name="ph">-2 to 16.</param>
    /// <param name="ionicStrength">mol/L; 0 leaves the constants as they are, else they are corrected by <see cref="CorrectedPka"/>.</param>
    /// <exception cref="InputProblem">A figure lies outside.</exception>
    public IReadOnlyList<double> Shares(double ph, double ionicStrength = 0)
    {
        Given.Within(ph, -2, 16, "pH", "pH");
        List<double> logs = [0];
        for (var i = 0; i < Pka.Count; i++) logs.Add(logs[^1] + ph - CorrectedPka(i, ionicStrength));
        // Relative to the largest: none overflows.
        var terms = logs.Select(l => Math.Pow(10, l - logs.Max())).ToList();
        return [.. terms.Select(t => t / terms.Sum())];
    }

    /// <summary>The constant of a step at an ionic strength, for a pH that counts activity: pKa' = pKa - (zb^2 - za^2) A (sqrt(I) / (1 + sqrt(I)) - 0.3 I). C. W. Davies 1962; up to about 0.5 mol/L.</summary>
    /// <param name="step">0 for the most acid.</param>
    /// <param name="ionicStrength">mol/L, 0 to 0.5.</param>
    /// <exception cref="InputProblem">The ionic strength lies outside.</exception>
    public double CorrectedPka(int step, double ionicStrength)
    {
        var root = Math.Sqrt(Given.Within(ionicStrength, 0, 0.5, "ionic strength", "mol/L"));
        var (acid, conjugate) = (ChargeOf(step), ChargeOf(step + 1));
        return Pka[step] - (conjugate * conjugate - acid * acid) * DebyeHueckel * (root / (1 + root) - 0.3 * ionicStrength);
    }
}
