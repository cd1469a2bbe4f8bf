using System.Text.Json;
using Sandarac.Analysis.Declaring;
using Sandarac.Specimen;

namespace Sandarac.Cli.Tests;

public class ReadTests
{
    [Fact]
    public void The_list_names_every_reading()
    {
        var (code, text, _) = CommandLine.Run("readings");
        Assert.Equal(0, code);
        foreach (var reading in ReadingCatalogue.All) Assert.Contains(reading.Declaration.Id, text, StringComparison.Ordinal);
    }

    [Fact]
    public void Help_of_a_reading_shows_every_parameter_with_its_range_and_default()
    {
        foreach (var declaration in ReadingCatalogue.All.Select(r => r.Declaration))
        {
            var words = string.Join(' ', CommandLine.Run("read", declaration.Id, "--help").Out.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
            foreach (var parameter in declaration.Parameters)
                Assert.Contains(parameter is DocumentParameter ? $"{parameter.RangeText}; none by default" : $"{parameter.RangeText}; default {parameter.DefaultText}", words, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void A_misspelt_parameter_is_refused_with_the_nearest_name()
    {
        using var folder = new TemporaryFolder();
        var (code, _, error) = CommandLine.Run("read", "false-colour", "--image", "a.tif", "--image", "b.tif", "--out", folder["out"], "--whit", "1");
        Assert.Equal(2, code);
        Assert.Contains("whit", error, StringComparison.Ordinal);
        Assert.False(Directory.Exists(folder["out"]));
    }

    [Fact]
    public void A_missing_image_is_a_problem_in_words_and_leaves_nothing()
    {
        using var folder = new TemporaryFolder();
        var (code, _, error) = CommandLine.Run("read", "photograph-quality", "--image", folder["none.tif"], "--out", folder["out"]);
        Assert.Equal(2, code);
        Assert.Contains("What to do", error, StringComparison.Ordinal);
        Assert.Empty(Directory.GetFileSystemEntries(folder.Path));
    }

    [Theory]
    [InlineData("frobnicate")]
    [InlineData("read", "frobnicate")]
    [InlineData("check", "--stdio", "x")]
    [InlineData("specimen", "x", "--ppi", "many")]
    [InlineData("specimen", "x", "--sections", "0")]
    [InlineData("specimen", "x", "--sections", "2", "--ppi", "90")]
    public void Invalid_command_lines_end_with_2(params string[] arguments) => Assert.Equal(2, CommandLine.Run(arguments).Code);

    [Fact]
    public void A_reading_on_bare_files_writes_rasters_pictures_and_figures()
    {
        using var folder = new TemporaryFolder();
        SpecimenDrawing.Draw(new SpecimenSettings(40, OnlyPhotographs: ["XSEC_S1_VIS.tif"]), folder["specimen"], null, TestContext.Current.CancellationToken);
        var image = Path.Combine(folder["specimen"], "photographs", "XSEC_S1_VIS.tif");
        var (code, text, error) = CommandLine.Run("read", "photograph-quality", "--image", image, "--out", folder["out"], "--json");
        Assert.True(code == 0, error);
        using var printed = JsonDocument.Parse(text);
        using var written = JsonDocument.Parse(File.ReadAllText(Path.Combine(folder["out"], "figures.json")));
        Assert.Equal(written.RootElement.GetRawText(), printed.RootElement.GetRawText());
        Assert.NotEmpty(written.RootElement.GetProperty("figures").EnumerateArray());
    }
}
