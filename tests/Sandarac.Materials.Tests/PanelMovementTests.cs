using Sandarac.Imaging;
using Sandarac.Materials.Wood;

namespace Sandarac.Materials.Tests;

public class PanelMovementTests
{
    /// <summary>Worked by hand from the formula with the printed shrinkages (Hoadley's table): 300 mm, 12 to 8 % moisture.</summary>
    [Theory]
    [InlineData("oak", 0, 2.23)]
    [InlineData("oak", 90, 4.37)]
    [InlineData("poplar", 90, 3.64)]
    [InlineData("Tilia", 90, 4.07)]
    public void Known_movements(string wood, double angle, double mm) =>
        Assert.Equal(-mm, PanelMovement.Between([new Board(WoodShrinkage.Find(wood)!, 300, angle)], 12, 8).ChangeMm, 2);

    /// <summary>The Wood Handbook's table of equilibrium moisture content, as woodworkerssource.com/wood-moisture-content.html reprints it: degrees Fahrenheit, per cent of humidity, per cent of moisture.</summary>
    [Theory]
    [InlineData(30, 5, 1.4)]
    [InlineData(30, 50, 9.5)]
    [InlineData(30, 90, 21.0)]
    [InlineData(50, 30, 6.3)]
    [InlineData(50, 65, 12.3)]
    [InlineData(70, 10, 2.5)]
    [InlineData(70, 20, 4.5)]
    [InlineData(70, 30, 6.2)]
    [InlineData(70, 40, 7.7)]
    [InlineData(70, 50, 9.2)]
    [InlineData(70, 60, 11.0)]
    [InlineData(70, 70, 13.1)]
    [InlineData(70, 80, 16.0)]
    [InlineData(70, 90, 20.5)]
    [InlineData(90, 50, 8.9)]
    [InlineData(110, 65, 11.0)]
    [InlineData(130, 20, 3.7)]
    [InlineData(130, 85, 15.8)]
    public void Known_moisture_contents(double fahrenheit, double humidity, double moisture) =>
        Assert.Equal(moisture, MoistureContent.Equilibrium((fahrenheit - 32) / 1.8, humidity), 0.1);

    [Fact]
    public void A_turned_board_lies_between_radial_and_tangential()
    {
        var oak = WoodShrinkage.Find("oak")!;
        Assert.Equal((oak.RadialPercent, oak.TangentialPercent), (oak.PercentAt(0), oak.PercentAt(90)));
        // Mean of the two at 45 degrees, as Mohr's circle has it without shear.
        Assert.Equal((oak.RadialPercent + oak.TangentialPercent) / 2, oak.PercentAt(45), 12);
    }

    [Fact]
    public void Boards_of_a_panel_add_up_and_swelling_mirrors_shrinking()
    {
        var oak = WoodShrinkage.Find("oak")!;
        Board[] boards = [new(oak, 210, 0), new(oak, 240, 30), new(oak, 180, 90)];
        var (dry, wet) = (PanelMovement.Between(boards, new Climate(50, 20), new Climate(35, 20)), PanelMovement.Between(boards, new Climate(35, 20), new Climate(50, 20)));
        Assert.Equal(boards.Sum(b => PanelMovement.Between([b], new Climate(50, 20), new Climate(35, 20)).ChangeMm), dry.ChangeMm, 12);
        Assert.Equal(-dry.ChangeMm, wet.ChangeMm, 12);
        Assert.True(dry.ChangeMm < 0 && dry.MostMm < dry.ChangeMm && dry.ChangeMm < dry.LeastMm && dry.LeastMm < 0);
    }

    [Fact]
    public void Above_fibre_saturation_wood_does_not_move() => Assert.Equal(0, PanelMovement.Between([new Board(WoodShrinkage.Find("oak")!, 300, 0)], 40, 30).ChangeMm);

    [Fact]
    public void Invalid_climates_and_boards_are_refused()
    {
        var oak = WoodShrinkage.Find("oak")!;
        foreach (var (t, h) in new (double, double)[] { (20, 101), (20, -1), (20, double.NaN), (60, 50), (-5.0, 50), (double.NaN, 50) })
            Assert.Throws<InputProblem>(() => { _ = MoistureContent.Equilibrium(t, h); });
        foreach (var board in new[] { new Board(oak, 0, 0), new Board(oak, double.NaN, 0), new Board(oak, double.PositiveInfinity, 0), new Board(oak, 300, 91), new Board(oak, 300, double.NaN) })
            Assert.Throws<InputProblem>(() => PanelMovement.Between([board], 12, 8));
        Assert.Throws<InputProblem>(() => PanelMovement.Between([], 12, 8));
        Assert.Null(WoodShrinkage.Find("plastic"));
    }

    [Fact]
    public void What_restrains_a_panel_is_always_said_and_every_wood_has_its_source()
    {
        Assert.Contains(PanelMovement.Cautions, c => c.Contains("cradle", StringComparison.Ordinal) && c.Contains("crack", StringComparison.Ordinal));
        Assert.Contains(PanelMovement.Cautions, c => c.Contains("upper estimate", StringComparison.Ordinal));
        Assert.Equal(17, WoodShrinkage.All.Count);
        Assert.All(WoodShrinkage.All, w => Assert.True(w.Flag == "READ" && w.TangentialPercent > w.RadialPercent && w.Source.Contains("p. 15", StringComparison.Ordinal)));
    }
}
