using System.Text.Json;

namespace Sandarac.Cli.Tests;

public class SolventTests
{
    [Fact]
    public void A_solvent_is_shown_with_sources_limits_and_who_decides()
    {
        var (code, text, _) = CommandLine.Run("solvent", "acetone");
        Assert.Equal(0, code);
        Assert.Contains("Diaz de los Rios and Murcia 2022", text, StringComparison.Ordinal);
        Assert.Contains("as collected about 2016", text, StringComparison.Ordinal);
        Assert.Contains("a licensed professional decide", text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_mixture_is_given_as_json_and_drawn()
    {
        using var folder = new TemporaryFolder();
        var (code, text, _) = CommandLine.Run("mix", "toluene 50 + acetone 50", "--json", "--out", folder["plots"]);
        Assert.Equal(0, code);
        using var json = JsonDocument.Parse(text);
        Assert.Equal(63.5, json.RootElement.GetProperty("teas").GetProperty("value").GetProperty("dispersion").GetDouble(), 1e-9);
        Assert.Equal(["hansen.svg", "triangle.svg"], Directory.GetFiles(folder["plots"]).Select(Path.GetFileName).Order());
    }

    [Fact]
    public void A_blend_keeps_what_was_asked()
    {
        var (code, text, _) = CommandLine.Run("blend", "--target", "toluene", "--max", "2", "--exclude", "H361d", "--json");
        Assert.Equal(0, code);
        using var json = JsonDocument.Parse(text);
        var first = json.RootElement.GetProperty("blends")[0];
        Assert.InRange(first.GetProperty("mixture").GetProperty("parts").GetArrayLength(), 1, 2);
        Assert.Contains(json.RootElement.GetProperty("leftOut").EnumerateArray(), o => o.GetProperty("name").GetString() == "toluene");
    }

    [Theory]
    [InlineData("solvent", "unobtainium")]
    [InlineData("mix", "ethanol 20")]
    [InlineData("blend", "--target", "nowhere")]
    [InlineData("blend", "--target", "teas:60,20,30")]
    [InlineData("blend", "--target", "hansen:1,2,-3")]
    [InlineData("blend", "--target", "toluene", "--max", "4")]
    [InlineData("blend", "--target", "toluene", "--exclude", "poison")]
    [InlineData("blend", "--target", "toluene", "--boiling", "150..60")]
    public void Invalid_input_is_a_problem_in_words(params string[] arguments)
    {
        var (code, _, error) = CommandLine.Run(arguments);
        Assert.Equal(2, code);
        Assert.Contains("What to do", error, StringComparison.Ordinal);
    }
}
