using Sandarac.Imaging;
using Sandarac.Materials.Calculators;
using Sandarac.Materials.Resins;
using Sandarac.Materials.Solvents;

namespace Sandarac.Materials.Tests.Calculators;

public class CalculatorTests
{
    /// <summary>Test values of the reference list: 10 mL in 50 m3, 24.45 L/mol, densities as given there.</summary>
    [Theory]
    [InlineData(0.79, 58.08, 158, 67)]
    [InlineData(0.86, 106.17, 172, 40)]
    [InlineData(1.33, 84.93, 266, 77)]
    public void Known_vapour_in_a_room(double density, double mass, double mg, double ppm)
    {
        var vapour = RoomVapour.Of(10, density, mass, 50);
        Assert.Equal(mg, vapour.MgPerM3, 0.5);
        Assert.Equal(ppm, vapour.Ppm, 0.5);
    }

    /// <summary>77 ppm of dichloromethane against the table's 50, 67 ppm of acetone against 500; the lower explosive limit of acetone is 2.5 %, 25 000 ppm.</summary>
    [Fact]
    public void Vapour_is_compared_with_limits_of_the_table()
    {
        var (acetone, chloride) = (SolventTable.Get("acetone"), SolventTable.Get("DCM"));
        Assert.Equal(77 / 50.0, RoomVapour.Of(chloride, 10, 50).Value!.ShareOfLimit(chloride)!.Value, 0.02);
        var vapour = RoomVapour.Of(acetone, 10, 50).Value!;
        Assert.Equal(67 / 500.0, vapour.ShareOfLimit(acetone)!.Value, 0.002);
        Assert.Equal(67 / 25000.0, vapour.ShareOfExplosive(acetone)!.Value, 1e-4);
        Assert.Null(vapour.ShareOfLimit(SolventTable.Get("NMP")));
        Assert.Contains("white spirit", RoomVapour.Of(SolventTable.Get("white spirit"), 10, 50).NoAnswer, StringComparison.Ordinal);
    }

    /// <summary>One air change leaves 1/e; the time to a limit and the decay are each other's inverse.</summary>
    [Fact]
    public void Ventilation_thins_vapour_out()
    {
        var vapour = new RoomVapour(100, 100);
        Assert.Equal(100 / Math.E, vapour.After(2, 0.5).Ppm, 1e-9);
        Assert.Equal(20, vapour.After(3, vapour.HoursUntil(20, 3)).Ppm, 1e-9);
        Assert.Equal(0, vapour.HoursUntil(200, 3));
    }

    [Fact]
    public void Known_solutions()
    {
        Assert.Equal(new SolutionRecipe(50, 250), Solutions.Stock(PercentKind.WeightInVolume, 20, 250));
        Assert.Equal(new SolutionRecipe(50, 200), Solutions.Stock(PercentKind.WeightInWeight, 20, 250));
        Assert.Equal(new SolutionRecipe(50, 200), Solutions.Stock(PercentKind.VolumeInVolume, 20, 250));
        Assert.Equal((25, 75), Solutions.Dilution(20, 5, 100));
    }

    /// <summary>0.5 m2 in two coats at 10 m2 a litre is 100 mL; half lost doubles it; 20 % resin of 1.1 g/mL leaves 200 mL/m2 x 0.2 / 1.1 = 36.4 um.</summary>
    [Fact]
    public void Known_varnish()
    {
        var need = VarnishNeed.Of(5000, 2, 10, 20, 50, 1.1);
        Assert.Equal((200.0, 40.0), (need.VolumeMl, need.ResinG));
        Assert.Equal(36.36, need.DryThicknessUm!.Value, 0.01);
        Assert.Equal(100, VarnishNeed.Of(5000, 2, 10, 20).VolumeMl, 1e-9);
    }

    /// <summary>Glass of 1.5 in air reflects 4 % (any textbook of optics); halving a varnish quarters the time through it (S. Michalski 1990, abstract).</summary>
    [Fact]
    public void Known_reflectance_and_penetration()
    {
        Assert.Equal(0.04, Boundary.Reflectance(1, 1.5), 1e-12);
        Assert.Equal(0, Boundary.Reflectance(1.539, 1.539));
        Assert.Equal(15, Penetration.Time(60, 40, 20), 1e-12);
    }

    [Fact]
    public void Resins_are_read_with_their_sources() => Assert.All(Resin.All, r => Assert.True(r is { RefractiveIndex: { Low: > 1.4, High: < 1.6 }, Source.Length: > 0 }));

    [Fact]
    public void Invalid_figures_are_refused()
    {
        Assert.Throws<InputProblem>(() => RoomVapour.Of(-1, 0.79, 58, 50));
        Assert.Throws<InputProblem>(() => RoomVapour.Of(10, 0.79, 58, 0));
        Assert.Throws<InputProblem>(() => new RoomVapour(1, 1).After(double.NaN, 1));
        Assert.Throws<InputProblem>(() => Solutions.Stock(PercentKind.WeightInWeight, 101, 100));
        Assert.Throws<InputProblem>(() => Solutions.Dilution(5, 20, 100));
        Assert.Throws<InputProblem>(() => VarnishNeed.Of(5000, 0, 10, 20));
        Assert.Throws<InputProblem>(() => Boundary.Reflectance(0.5, 1.5));
        Assert.Throws<InputProblem>(() => Penetration.Time(60, double.PositiveInfinity, 20));
    }
}
