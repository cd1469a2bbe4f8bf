using Sandarac.Imaging;
using Sandarac.Materials.Tables;

namespace Sandarac.Materials.Aqueous;

/// <summary>What to weigh out for a buffered water.</summary>
/// <param name="Weighed">The buffer's form without charge.</param>
/// <param name="Grams">Of it, g.</param>
/// <param name="Setter">What brings the solution to its pH.</param>
/// <param name="SetterGrams">About so much of it goes in, g of the pure substance; a pH meter decides, since constants and activities are approximate.</param>
public sealed record BufferRecipe(string Weighed, double Grams, string Setter, double SetterGrams)
{
    private static readonly Dictionary<string, (string Name, double MolarMass)> Setters = Table.Rows("setters.csv").ToDictionary(f => f[0], f => (f[1], Interval.Number(f[2])));

    /// <summary>The recipe: mol/L times L times g/mol. Since what is weighed has no charge, all of the counter-ion comes with what sets the pH.</summary>
    /// <param name="buffer">Which.</param>
    /// <param name="solution">The solution as computed for it.</param>
    /// <param name="volumeMl">Of the finished solution, mL.</param>
    /// <returns>No answer where no form without charge can be weighed out.</returns>
    /// <exception cref="InputProblem">The volume cannot be.</exception>
    public static Answer<BufferRecipe> Of(BufferSystem buffer, BufferSolution solution, double volumeMl)
    {
        var litres = Given.Positive(volumeMl, "volume", "mL") / 1000;
        if (buffer.Weighed.Length == 0) return new(null, $"{buffer.Acid} cannot be weighed out; make this buffer of its salts.");
        var (setter, molarMass) = Setters[solution.CounterIon];
        return new(new(buffer.Weighed, solution.Forms.Sum(f => f.Concentration) * litres * buffer.MolarMass, setter, solution.CounterConcentration * litres * molarMass), null);
    }
}
