using Sandarac.Specimen;

namespace Sandarac.Cli.Tests;

public class PackTests
{
    [Fact]
    public void A_painting_is_packed_checked_and_unpacked_elsewhere_and_a_damaged_package_is_refused()
    {
        using var folder = new TemporaryFolder();
        SpecimenDrawing.Draw(new SpecimenSettings(40, OnlyPhotographs: ["VIS_01.tif"]), folder["specimen"], null, TestContext.Current.CancellationToken);
        var (code, text, error) = CommandLine.Run("examine", Path.Combine(folder["specimen"], "photographs"), "--studio", folder["studio"], "--height-mm", "412", "--width-mm", "518", "--corners-only", "--title", "Ferry");
        Assert.True(code == 0, error);
        var painting = Path.GetFileNameWithoutExtension(Assert.Single(Directory.GetFiles(Path.Combine(folder["studio"], "documents"), "*.html")));

        (code, text, error) = CommandLine.Run("pack", painting, "--studio", folder["studio"], "--out", folder["ferry"]);
        Assert.True(code == 0, error);
        Assert.StartsWith("Ferry: ", text, StringComparison.Ordinal);
        (code, text, _) = CommandLine.Run("unpack", folder["ferry"], "--check");
        Assert.Equal(0, code);
        Assert.Contains($"sound: Ferry, painting {painting}", text, StringComparison.Ordinal);
        (code, text, error) = CommandLine.Run("unpack", folder["ferry"], "--studio", folder["other"]);
        Assert.True(code == 0, error);
        Assert.Contains($"painting {painting}", text, StringComparison.Ordinal);

        File.AppendAllText(Path.Combine(folder["ferry"], "data", "originals", "VIS_01.tif"), "x");
        (code, text, _) = CommandLine.Run("unpack", folder["ferry"], "--check");
        Assert.Equal(1, code);
        Assert.Contains("data/originals/VIS_01.tif", text, StringComparison.Ordinal);
        (code, _, error) = CommandLine.Run("unpack", folder["ferry"], "--studio", folder["third"]);
        Assert.Equal(2, code);
        Assert.Contains("(bag-invalid)", error, StringComparison.Ordinal);
    }
}
