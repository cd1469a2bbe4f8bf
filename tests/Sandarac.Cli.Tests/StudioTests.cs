using Sandarac.Specimen;

namespace Sandarac.Cli.Tests;

/// <summary>The main job as its user types it: examine, repeat, check, damage, check again.</summary>
public class StudioTests
{
    [Fact]
    public void Examining_then_checking_finds_all_whole_until_a_byte_is_changed()
    {
        using var folder = new TemporaryFolder();
        SpecimenDrawing.Draw(new SpecimenSettings(40, OnlyPhotographs: ["VIS_01.tif", "IR_01.tif"]), folder["specimen"], null, TestContext.Current.CancellationToken);
        string[] examine = ["examine", Path.Combine(folder["specimen"], "photographs"), "--studio", folder["studio"], "--height-mm", "412", "--width-mm", "518", "--title", "Ferry"];
        var (code, text, error) = CommandLine.Run(examine);
        Assert.True(code == 0, error);
        Assert.Contains("Ferry, 412 x 518 mm", text, StringComparison.Ordinal);
        Assert.Contains("false-colour", text, StringComparison.Ordinal);
        Assert.Equal(0, CommandLine.Run(examine).Code);
        Assert.Equal(0, CommandLine.Run("check", "--studio", folder["studio"]).Code);

        var victim = new DirectoryInfo(Path.Combine(folder["studio"], "objects")).GetFiles("*", SearchOption.AllDirectories).MaxBy(f => f.Length)!;
        victim.IsReadOnly = false;
        using (var stream = victim.OpenWrite())
        {
            stream.Position = victim.Length / 2;
            stream.Write([1, 2, 3, 4, 5]);
        }
        var check = CommandLine.Run("check", "--studio", folder["studio"]);
        Assert.Equal(1, check.Code);
        Assert.Contains("damaged", check.Out, StringComparison.Ordinal);
    }

    [Fact]
    public void A_folder_that_is_not_there_is_a_problem_in_words()
    {
        using var folder = new TemporaryFolder();
        var (code, _, error) = CommandLine.Run("examine", folder["none"], "--studio", folder["studio"]);
        Assert.Equal(2, code);
        Assert.Contains("What to do", error, StringComparison.Ordinal);
    }
}
