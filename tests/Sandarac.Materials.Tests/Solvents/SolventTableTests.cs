using Sandarac.Imaging;
using Sandarac.Materials.Safety;
using Sandarac.Materials.Solvents;

namespace Sandarac.Materials.Tests.Solvents;

public class SolventTableTests
{
    [Fact]
    public void Every_row_is_read_and_every_value_has_its_source()
    {
        Assert.Equal(74, SolventTable.All.Count);
        Assert.All(SolventTable.All, s =>
        {
            string?[] sources = [s.Density?.Source, s.Hansen?.Source, s.Teas?.Source, s.Boiling?.Source, s.Flash?.Source, s.VapourPressure?.Source, s.Explosive?.Source, s.Evaporation?.Source];
            Assert.All(sources.OfType<string>(), source => Assert.Matches("^(READ|MEMORY|CALC)", source));
            Assert.All(s.HazardCodes, code => Assert.NotNull(HazardStatement.Find(code)));
        });
    }

    [Fact]
    public void Names_and_aliases_and_numbers_each_lead_to_one_solvent()
    {
        var names = SolventTable.All.SelectMany(s => s.Aliases.Append(s.Name).Distinct(StringComparer.OrdinalIgnoreCase)).ToList();
        Assert.Equal(names.Count, names.Distinct(StringComparer.OrdinalIgnoreCase).Count());
        Assert.Equal("propan-2-ol", SolventTable.Get("IPA").Name);
        Assert.Equal("acetone", SolventTable.Get(" 67-64-1 ").Name);
    }

    /// <summary>Molar masses and densities against the CRC Handbook, from memory: acetone 58.08 and 0.790, toluene 92.14 and 0.867, ethanol 46.07 and 0.789, dichloromethane 84.93 and 1.326, water 18.02 and 0.998.</summary>
    [Theory]
    [InlineData("acetone", 58.08, 0.790)]
    [InlineData("toluene", 92.14, 0.867)]
    [InlineData("ethanol", 46.07, 0.789)]
    [InlineData("dichloromethane", 84.93, 1.326)]
    [InlineData("water", 18.02, 0.998)]
    public void Known_molar_masses_and_densities(string name, double mass, double density)
    {
        var solvent = SolventTable.Get(name);
        Assert.Equal(mass, solvent.MolarMass!.Value, 0.011);
        Assert.Equal(density, solvent.Density!.Value, 0.005 * density);
    }

    [Fact]
    public void A_limit_that_must_not_be_used_is_not_there_and_the_row_says_why()
    {
        var solvent = SolventTable.Get("NMP");
        Assert.Null(solvent.Limit);
        Assert.Contains("No limit is shown", solvent.Caution, StringComparison.Ordinal);
        Assert.Contains(SafetyCautions.For(["NMP"]), c => c.Code == "row" && c.Text.Contains("No limit is shown", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("dichloromethane")]
    [InlineData("triethanolamine")]
    [InlineData("dimethyl carbonate")]
    public void Rows_whose_sources_disagree_say_so(string name)
    {
        var solvent = SolventTable.Get(name);
        Assert.Contains("disagree", solvent.Caution, StringComparison.Ordinal);
        Assert.NotEmpty(solvent.OtherHansen);
    }

    [Theory]
    [InlineData("xylene", "o-xylene")]
    [InlineData("amyl", "pentan-1-ol")]
    [InlineData("unobtainium", "sandarac solvent")]
    [InlineData("", "sandarac solvent")]
    public void Invalid_names_are_refused_with_those_that_are_near(string name, string remedy) => Assert.Contains(remedy, Assert.Throws<InputProblem>(() => SolventTable.Get(name)).Remedy, StringComparison.Ordinal);

    [Theory]
    [InlineData("40", 40, 40, "40")]
    [InlineData("-5..10", -5, 10, "-5 to 10")]
    [InlineData("<0.1", 0, 0.1, "below 0.1")]
    public void Ranges_are_kept(string text, double low, double high, string words)
    {
        var read = Interval.Parse(text);
        Assert.Equal((low, high, words), (read.Low, read.High, read.ToString()));
    }

    /// <summary>Teas fractions that the Hansen parameters of the same row give, as the reference table prints them to a tenth.</summary>
    [Theory]
    [InlineData("acetone", 47.1, 31.6, 21.3)]
    [InlineData("toluene", 84.1, 6.5, 9.3)]
    [InlineData("ethanol", 35.9, 20.0, 44.1)]
    [InlineData("water", 21.0, 21.7, 57.3)]
    public void Known_derived_fractions(string name, double d, double p, double h) => Assert.True(SolventTable.Get(name).Hansen!.Value.Teas.LargestDifference(new(d, p, h)) < 0.051);
}
