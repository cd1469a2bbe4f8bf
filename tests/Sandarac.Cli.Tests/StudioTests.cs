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
        Report(folder);

        var painting = Path.GetFileNameWithoutExtension(Assert.Single(Directory.GetFiles(Path.Combine(folder["studio"], "documents"), "*.html")));
        var walk = CommandLine.Run("walk", painting, "--walk", "Not written", "--out", folder["walk"], "--studio", folder["studio"]);
        Assert.Equal(2, walk.Code);
        Assert.Contains("(unknown-walk)", walk.Error, StringComparison.Ordinal);
        Assert.False(Directory.Exists(folder["walk"]), "a folder of no walk");
        walk = CommandLine.Run("walk", painting, "--out", folder["walk"], "--base", "https://museum.example/ferry", "--studio", folder["studio"]);
        // Where the viewer is not built there is nothing to copy, which is said.
        Assert.True(walk.Code == 0 ? File.Exists(Path.Combine(folder["walk"], "manifest.json")) : walk.Error.Contains("(no-viewer)", StringComparison.Ordinal), walk.Error);
        PackAndUnpack(folder);

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

    /// <summary>A document is written once; a second time only when asked to; what is wrong is said with exit code 2.</summary>
    private static void Report(TemporaryFolder folder)
    {
        var painting = Path.GetFileNameWithoutExtension(Assert.Single(Directory.GetFiles(Path.Combine(folder["studio"], "documents"), "*.html")));
        string[] report = ["report", painting, "--kind", "condition", "--format", "pdf", "--language", "es", "--author", "R. Invented", "--studio", folder["studio"], "--out", folder["report.pdf"]];
        var (code, text, error) = CommandLine.Run(report);
        Assert.True(code == 0, error);
        Assert.Contains(folder["report.pdf"], text, StringComparison.Ordinal);
        Assert.Contains("not validated", error, StringComparison.Ordinal);
        Assert.Equal("%PDF-"u8.ToArray(), File.ReadAllBytes(folder["report.pdf"])[..5]);
        foreach (var (arguments, problem) in new[] { (report, "file-exists"), ([.. report, "--force", "--template", folder["none.json"]], "template-file"), ([.. report, "--force", "--fields", folder["none.json"]], "fields-file") })
        {
            (code, _, error) = CommandLine.Run(arguments);
            Assert.Equal(2, code);
            Assert.Contains($"({problem})", error, StringComparison.Ordinal);
        }
        Assert.Equal(0, CommandLine.Run([.. report, "--force"]).Code);
    }

    private static void PackAndUnpack(TemporaryFolder folder)
    {
        var painting = Path.GetFileNameWithoutExtension(Assert.Single(Directory.GetFiles(Path.Combine(folder["studio"], "documents"), "*.html")));
        var (code, text, error) = CommandLine.Run("pack", painting, "--studio", folder["studio"], "--out", folder["ferry"]);
        Assert.True(code == 0, error);
        Assert.StartsWith("Ferry: ", text, StringComparison.Ordinal);
        (code, text, error) = CommandLine.Run("unpack", folder["ferry"], "--studio", folder["other"]);
        Assert.True(code == 0, error);
        Assert.Contains($"painting {painting}", text, StringComparison.Ordinal);
        File.AppendAllText(Path.Combine(folder["ferry"], "data", "originals", "VIS_01.tif"), "x");
        (code, text, _) = CommandLine.Run("unpack", folder["ferry"], "--check");
        Assert.Equal(1, code);
        Assert.Contains("data/originals/VIS_01.tif", text, StringComparison.Ordinal);
        (code, _, error) = CommandLine.Run("unpack", folder["ferry"], "--studio", folder["other"]);
        Assert.Equal(2, code);
        Assert.Contains("(bag-invalid)", error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_measured_distance_corrects_the_size_and_what_is_none_does_not()
    {
        using var folder = new TemporaryFolder();
        SpecimenDrawing.Draw(new SpecimenSettings(40, OnlyPhotographs: ["VIS_01.tif"]), folder["specimen"], null, TestContext.Current.CancellationToken);
        var (code, text, error) = CommandLine.Run("examine", Path.Combine(folder["specimen"], "photographs"), "--studio", folder["studio"], "--height-mm", "412", "--width-mm", "518", "--corners-only");
        Assert.True(code == 0, error);
        var painting = Path.GetFileNameWithoutExtension(Assert.Single(Directory.GetFiles(Path.Combine(folder["studio"], "documents"), "*.html")));
        (int Code, string Out, string Error) Scale(string id, string to, string mm) => CommandLine.Run("scale", id, "--from", "50,50", "--to", to, "--mm", mm, "--studio", folder["studio"]);

        foreach (var (id, to, mm, problem) in new[] { (painting, "50,250", "0", "distance"), (painting, "50,250", "-5", "distance"), (painting, "50,250", "NaN", "distance"), (painting, "50,50", "100", "distance"),
            (painting, "50,250", "90000", "distance"), (painting, "50", "100", "place"), (Guid.NewGuid().ToString(), "50,250", "100", "unknown-painting") })
        {
            (code, _, error) = Scale(id, to, mm);
            Assert.Equal(2, code);
            Assert.Contains($"({problem})", error, StringComparison.Ordinal);
        }
        (code, text, error) = Scale(painting, "50,250", "100");
        Assert.True(code == 0, error);
        Assert.Contains("206 x 259 mm", text, StringComparison.Ordinal);
        Assert.Contains("photographs aligned again: 1.", text, StringComparison.Ordinal);
        Assert.Contains("examined again", error, StringComparison.Ordinal);
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
