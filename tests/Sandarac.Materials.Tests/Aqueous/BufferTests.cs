using Sandarac.Imaging;
using Sandarac.Materials.Aqueous;

namespace Sandarac.Materials.Tests.Aqueous;

public class BufferTests
{
    private static BufferSystem Acetate => BufferSystem.All.Single(b => b.Name == "acetate");

    /// <summary>Acetate share at the pH of a conservation handout's adjusted waters (2016), by Henderson and Hasselbalch: test values of the reference list.</summary>
    [Theory]
    [InlineData(5.0, 0.637)]
    [InlineData(5.5, 0.847)]
    [InlineData(6.0, 0.946)]
    public void Known_acetate_shares(double ph, double share) => Assert.Equal(share, Acetate.Shares(ph)[1], 0.0006);

    /// <summary>The same waters: 1 mL of glacial acid (1.049 g/mL, 17.47 mmol) made up to 125, 160 and 170 mL implies 0.0890, 0.0925 and 0.0972 mol/L of acetate. All three were brought to 6 mS/cm, so the sum of limiting
    /// conductivities must lie above that, and alike in all three.</summary>
    [Theory]
    [InlineData(5.0, 125, 0.0890)]
    [InlineData(5.5, 160, 0.0925)]
    [InlineData(6.0, 170, 0.0972)]
    public void Known_adjusted_waters(double ph, double millilitres, double acetate)
    {
        var solution = BufferSolution.Of(Acetate, 1.049 / 60.05 * 1000 / millilitres, ph, "NH4+", davies: false);
        Assert.Equal(acetate, solution.Forms[1].Concentration, 0.0003);
        Assert.Equal("NH4+", solution.CounterIon);
        Assert.InRange(solution.ConductivityUpper.MilliSiemensPerCm!.Value, 6, 12);
    }

    /// <summary>Equal molalities of the two phosphates at 0.025 mol/kg are a standard of pH 6.865 at 25 C (IUPAC, from memory); pKa2 of 7.21 (READ) and Davies' correction give it to 0.05.</summary>
    [Fact]
    public void Known_phosphate_standard_follows_from_daviess_correction()
    {
        var phosphate = BufferSystem.All.Single(b => b.Name == "phosphate");
        const double Strength = (0.025 + 0.025 * 4 + 0.075) / 2;
        Assert.Equal(6.865, phosphate.CorrectedPka(1, Strength), 0.05);
        Assert.Equal(7.21, phosphate.CorrectedPka(1, 0));
    }

    /// <summary>0.01 mol/L of potassium chloride would conduct 1.413 mS/cm (standard) where the limiting values give 1.499: an estimate from above by 6 %.</summary>
    [Fact]
    public void Known_conductivity_is_estimated_from_above()
    {
        var sum = Ion.Find("K+")!.MolarConductivity + Ion.Find("Cl-")!.MolarConductivity;
        Assert.InRange(0.01 * sum, 1.413, 1.413 * 1.07);
    }

    [Fact]
    public void Solutions_are_neutral_and_shares_total_one()
    {
        foreach (var buffer in BufferSystem.All)
            foreach (var ph in (double[])[0, 2, 4.76, 7, 9.25, 12, 14])
                foreach (var davies in (bool[])[false, true])
                {
                    if (buffer.Pka.Count == 4 && davies || ph is 0 or 14 && davies) continue;
                    var s = BufferSolution.Of(buffer, 0.02, ph, "Na+", davies);
                    var charge = s.Forms.Select((f, i) => f.Concentration * buffer.ChargeOf(i)).Sum() + Math.Pow(10, -ph) - Math.Pow(10, ph - 14) + (s.CounterIon == "Cl-" ? -1 : 1) * s.CounterConcentration;
                    Assert.Equal(0, charge, 1e-12);
                    Assert.Equal(0.02, s.Forms.Sum(f => f.Concentration), 1e-12);
                }
    }

    /// <summary>Molar masses by another library: xraylib 4.0.0, CompoundParser("C6H8O7")["molarMass"] and so on, whose atomic weights have two decimals: hydrogen is 1.01, 0.05 % of ammonia.</summary>
    [Theory]
    [InlineData("acetate", "Na+", 60.06, 40.01)]
    [InlineData("citrate", "K+", 192.14, 56.11)]
    [InlineData("phosphate", "NH4+", 98.01, 17.04)]
    [InlineData("borate", "Na+", 61.84, 40.01)]
    [InlineData("ammonia", "Cl-", 17.04, 36.47)]
    [InlineData("tris", "Cl-", 121.16, 36.47)]
    [InlineData("EDTA", "Na+", 292.28, 40.01)]
    public void Known_molar_masses_are_what_is_weighed_for_a_mole(string buffer, string ion, double weighed, double setter)
    {
        var system = BufferSystem.Get(buffer);
        var solution = BufferSolution.Of(system, 0.1, buffer is "ammonia" or "tris" ? 8 : 9, ion == "Cl-" ? "Na+" : ion, davies: false);
        var recipe = BufferRecipe.Of(system, solution, 500).Value!;
        Assert.Equal(ion, solution.CounterIon);
        Assert.Equal(0.05 * weighed, recipe.Grams, 0.05 * weighed * 1e-3);
        Assert.Equal(solution.CounterConcentration * 0.5 * setter, recipe.SetterGrams, recipe.SetterGrams * 1e-3);
    }

    /// <summary>At its pKa half of a weak acid is neutralised: 0.1 mol of acetic acid takes 0.05 mol of sodium hydroxide, 2.0 g (a textbook's first example, no source).</summary>
    [Fact]
    public void Half_of_the_acid_is_neutralised_at_its_constant() =>
        Assert.Equal(2.0, BufferRecipe.Of(Acetate, BufferSolution.Of(Acetate, 0.1, 4.756, "Na+", davies: false), 1000).Value!.SetterGrams, 0.005);

    [Fact]
    public void Carbonic_acid_cannot_be_weighed()
    {
        var carbonate = BufferSystem.Get("carbonate");
        Assert.NotNull(BufferRecipe.Of(carbonate, BufferSolution.Of(carbonate, 0.1, 8, "Na+", davies: false), 100).NoAnswer);
        Assert.Throws<InputProblem>(() => BufferRecipe.Of(Acetate, BufferSolution.Of(Acetate, 0.1, 5, "Na+", false), 0));
    }

    [Fact]
    public void An_ion_without_conductivity_is_no_answer() =>
        Assert.Contains("HCit-2", BufferSolution.Of(BufferSystem.All.Single(b => b.Name == "citrate"), 0.05, 5.5, "Na+", true).ConductivityUpper.NoAnswer, StringComparison.Ordinal);

    [Fact]
    public void Extreme_ph_gives_whole_shares()
    {
        Assert.Equal(1, Acetate.Shares(-2)[0], 1e-6);
        Assert.Equal(1, BufferSystem.All.Single(b => b.Name == "EDTA").Shares(16)[^1], 1e-5);
    }

    [Fact]
    public void Invalid_figures_are_refused()
    {
        Assert.Throws<InputProblem>(() => Acetate.Shares(double.NaN));
        Assert.Throws<InputProblem>(() => BufferSolution.Of(Acetate, 0, 5, "Na+", false));
        Assert.Throws<InputProblem>(() => BufferSolution.Of(Acetate, 0.1, 5, "Li+", false));
        Assert.Throws<InputProblem>(() => Acetate.CorrectedPka(0, 0.6));
    }
}
