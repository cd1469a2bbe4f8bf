using System.Globalization;
using CsCheck;
using Sandarac.Materials.Solvents;

namespace Sandarac.Materials.Tests.Solvents;

public class EvaporationDriftTests
{
    /// <summary>Against SciPy's integration of the same law with moles and molar volumes (References/Solvents/SOURCE.md).</summary>
    [Fact]
    public void Known_drifts()
    {
        foreach (var line in File.ReadLines(Path.Combine(AppContext.BaseDirectory, "References", "Solvents", "drift.csv")).Select(l => l.Split(',')))
        {
            var left = EvaporationDrift.At(Mixture.Parse(line[0]), Number(line[1])).Left;
            Assert.All(left.Parts.Zip(line[2..]), p => Assert.Equal(Number(p.Second), p.First.Fraction, 1e-7));
        }
    }

    [Fact]
    public void What_is_left_totals_what_is_left_and_the_slowest_part_only_grows() =>
        Gen.Select(Gen.Shuffle(SolventTable.All.Where(s => s.VapourPressureKPa is not null).ToArray(), 3), Gen.Double[1, 40], Gen.Double[1, 40]).Sample((parts, a, b) =>
        {
            if (parts.DistinctBy(p => p.Cas).Count() < 3) return;
            var drift = EvaporationDrift.Of(Mixture.Of([(parts[0], a), (parts[1], b), (parts[2], 100 - a - b)])).Value!;
            var slowest = parts.MinBy(p => p.VapourPressureKPa)!;
            double[] shares = [.. drift.Points.Select(p => p.Left.Parts.Single(q => q.Solvent == slowest).Fraction)];
            Assert.All(drift.Points, p => Assert.Equal(1, p.Left.Parts.Sum(q => q.Fraction), 1e-9));
            Assert.All(shares.Zip(shares.Skip(1)), s => Assert.True(s.Second >= s.First - 1e-9));
            Assert.Equal((0.0, EvaporationDrift.FollowedPercent), (drift.Points[0].EvaporatedPercent, drift.Points[^1].EvaporatedPercent));
        });

    [Theory]
    [InlineData("ethyl lactate 20 + ethanol 80", "ethyl lactate")]
    [InlineData("glycerol 20 + ethanol 80", "glycerol")]
    [InlineData("isoparaffin 20 + ethanol 80", "isoparaffinic hydrocarbon")]
    public void A_missing_vapour_pressure_is_no_answer(string mixture, string name) => Assert.Contains(name, EvaporationDrift.Of(Mixture.Parse(mixture)).NoAnswer, StringComparison.Ordinal);

    [Fact]
    public void Cuts_and_extrapolated_pressures_are_cautioned_about()
    {
        var cautions = EvaporationDrift.Of(Mixture.Parse("white spirit 50 + butan-1-ol 50")).Value!.Cautions;
        Assert.Contains(cautions, c => c.Contains("a cut of many liquids", StringComparison.Ordinal));
        Assert.Contains(cautions, c => c.StartsWith("white spirit, about 17 % aromatic and butan-1-ol", StringComparison.Ordinal));
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
