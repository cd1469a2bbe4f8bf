using Sandarac.Imaging;
using Sandarac.Materials.Solvents;

namespace Sandarac.Materials.Tests.Solvents;

public class SolubilityRegionTests
{
    [Fact]
    public void Regions_that_come_with_the_program_are_marked_as_not_verified()
    {
        Assert.NotEmpty(SolubilityRegion.All);
        Assert.All(SolubilityRegion.All, r => Assert.False(r.IsVerified));
    }

    /// <summary>General knowledge of the trade, from memory: toluene and acetone dissolve poly(methyl methacrylate) or poly(vinyl acetate); isooctane and water do not.</summary>
    [Fact]
    public void Known_solvents_of_resins_lie_within()
    {
        foreach (var region in SolubilityRegion.All.Where(r => r.Name is "poly(methyl methacrylate)" or "poly(vinyl acetate)"))
        {
            Assert.True(region.Red(SolventTable.Get("acetone").Hansen!.Value) < 1);
            Assert.True(region.Red(SolventTable.Get("isooctane").Hansen!.Value) > 1);
            Assert.True(region.Red(SolventTable.Get("water").Hansen!.Value) > 1);
        }
    }

    [Fact]
    public void Points_are_in_or_out_of_an_area()
    {
        var area = TeasArea.Of("resin", TeasArea.ReadCorners("70 10 20; 70/20/10; 50 40 10; 50 10 40"), "own tests");
        Assert.True(area.Contains(new(60, 20, 20)));
        Assert.False(area.Contains(new(90, 5, 5)));
        Assert.False(area.Contains(new(40, 30, 30)));
    }

    [Theory]
    [InlineData("resin", "60 20 20; 50 30 20", "region-corners")]
    [InlineData("resin", "60 20 20; 50 30 20; 40 40 20", "region-corners")]
    [InlineData("resin", "60 20 20; 50 30 20; 40 x 20", "region-corners")]
    [InlineData("resin", "60 20 20; 50 30 20; 50 20 20", "teas-sum")]
    [InlineData(" ", "70 10 20; 70 20 10; 50 30 20", "region-name")]
    [InlineData("bell \a", "70 10 20; 70 20 10; 50 30 20", "region-name")]
    public void Invalid_areas_are_refused(string name, string corners, string code) => Assert.Equal(code, Assert.Throws<InputProblem>(() => TeasArea.Of(name, TeasArea.ReadCorners(corners), "own tests")).Code);

    [Fact]
    public void Invalid_spheres_are_refused()
    {
        Assert.Equal("region-source", Assert.Throws<InputProblem>(() => HansenSphere.Of("resin", new(17, 5, 5), 6, "")).Code);
        Assert.Throws<InputProblem>(() => HansenSphere.Of("resin", new(17, 5, 5), 0, "own tests"));
        Assert.Throws<InputProblem>(() => HansenSphere.Of("resin", new(17, double.NaN, 5), 6, "own tests"));
    }
}
