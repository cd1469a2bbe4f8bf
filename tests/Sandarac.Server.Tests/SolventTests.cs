using System.Net;

namespace Sandarac.Server.Tests;

public sealed class SolventTests(RunningServer server)
{
    private async Task<string> PageAsync(string address) => WebUtility.HtmlDecode(await server.Client.GetStringAsync(address, TestContext.Current.CancellationToken));

    [Fact]
    public async Task The_table_shows_every_solvent_and_says_what_was_not_verified()
    {
        var page = await PageAsync("/solvents");
        Assert.Contains("74 solvents", page, StringComparison.Ordinal);
        Assert.Contains("Hazards, not verified", page, StringComparison.Ordinal);
        Assert.Contains("a licensed professional decide", page, StringComparison.Ordinal);
        Assert.DoesNotContain(">toluene<", await PageAsync("/solvents?without=reproduction"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task One_solvent_has_its_sources_and_its_withheld_limit_is_explained()
    {
        Assert.Contains("READ: Diaz de los Rios and Murcia 2022", await PageAsync("/solvents?solvent=67-64-1"), StringComparison.Ordinal);
        var page = await PageAsync("/solvents?solvent=NMP");
        Assert.Contains("No limit is shown", page, StringComparison.Ordinal);
        Assert.DoesNotContain("98.7", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_mixture_is_shown_in_both_systems_on_both_plots_and_as_it_evaporates()
    {
        var page = await PageAsync("/solvents/mixture?mixture=toluene+50+%2B+acetone+50&region=*");
        Assert.Contains("63.5 / 19.5 / 17.0", page, StringComparison.Ordinal);
        Assert.Contains("61.7 / 21.7 / 16.6", page, StringComparison.Ordinal);
        Assert.Contains("The two ways to the triangle differ by 2.2 points", page, StringComparison.Ordinal);
        Assert.Equal(2, page.Split("<svg").Length - 1);
        Assert.Contains("Ideal evaporation at 20 C", page, StringComparison.Ordinal);
        Assert.DoesNotContain("style=", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Blends_link_to_their_mixtures()
    {
        var page = await PageAsync("/solvents/blend?target=toluene&most=2&least=5&without=reproduction");
        Assert.Contains("/solvents/mixture?mixture=", page, StringComparison.Ordinal);
        Assert.Contains("combinations were compared", page, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/solvents?solvent=nectar", "No solvent of the table is called \"nectar\".")]
    [InlineData("/solvents/mixture?mixture=ethanol+20", "The parts total 20 %, not 100.")]
    [InlineData("/solvents/mixture?mixture=%3Cscript%3E+100", "No solvent of the table is called")]
    [InlineData("/solvents/blend?target=nowhere", "\"nowhere\" is no place.")]
    [InlineData("/solvents/blend?target=toluene&least=50", "least share cannot be 50.")]
    [InlineData("/solvents/blend?target=toluene&without=poison", "\"poison\" is no hazard")]
    [InlineData("/calculators?calc=vapour&solvent=acetone&ml=&room=50", "Liquid that evaporates: no number is given.")]
    [InlineData("/calculators?calc=dilution&stock=5&wanted=20&volume=100", "wanted concentration cannot be 20.")]
    [InlineData("/calculators?calc=buffer&buffer=broth&concentration=1&ph=7&cation=Na%2B", "No buffer of the table is called \"broth\".")]
    [InlineData("/calculators?calc=stock&kind=7&percent=1&amount=1", "is none of the choices")]
    public async Task What_cannot_be_is_said_above_the_form(string address, string words) => Assert.Contains(words, await PageAsync(address), StringComparison.Ordinal);

    /// <summary>Test values of the reference list: 158 mg/m3, 67 ppm.</summary>
    [Theory]
    [InlineData("/calculators?calc=vapour&solvent=acetone&ml=10&room=50", "158 mg/m3, 66.7 ppm")]
    [InlineData("/calculators?calc=stock&kind=WeightInVolume&percent=20&amount=250", "Dissolve 50.0 g and make up to 250 mL.")]
    [InlineData("/calculators?calc=dilution&stock=20&wanted=5&volume=100", "25.0 mL of the stock and 75.0 mL of solvent.")]
    [InlineData("/calculators?calc=varnish&area=5000&coats=2&coverage=10&resin=20&loss=50&density=1,1", "200 mL of varnish with 40.0 g of resin. Dry, 36.4 um thick.")]
    [InlineData("/calculators?calc=boundary&first=1&second=1.5", "4.0000 % is reflected.")]
    [InlineData("/calculators?calc=penetration&time=60&thickness=20&other=10", "15.0 s through the other film.")]
    [InlineData("/calculators?calc=buffer&buffer=acetate&concentration=0.089&ph=5&cation=NH4%2B", "63.7")]
    public async Task Known_values_are_calculated(string address, string words) => Assert.Contains(words, await PageAsync(address), StringComparison.Ordinal);
}
