using Sandarac.Imaging.Formats;

namespace Sandarac.Imaging.Tests.Formats;

public sealed class FolderFileTests
{
    [Theory]
    [InlineData("../a.tif")]
    [InlineData("sub/../../a.tif")]
    [InlineData("..\\a.tif")]
    [InlineData("/etc/passwd")]
    [InlineData("C:\\a.tif")]
    [InlineData("a\0.tif")]
    [InlineData("a\n.tif")]
    [InlineData("")]
    [InlineData(".")]
    [InlineData("sub//a.tif")]
    public void Invalid_names_that_escape(string name)
    {
        using var folder = new TemporaryFolder();
        var problem = Assert.Throws<InputProblem>(() => FolderFile.Resolve(folder, name));
        Assert.Equal("path-outside", problem.Code);
        Assert.DoesNotContain(problem.Message, char.IsControl);
    }

    [Fact]
    public void Known_names_stay_inside()
    {
        using var folder = new TemporaryFolder();
        Directory.CreateDirectory(folder["sub"]);
        Assert.Equal(folder["VIS_01.tif"], FolderFile.Resolve(folder, "VIS_01.tif"));
        Assert.Equal(Path.Combine(folder["sub"], "a..b.tif"), FolderFile.Resolve(folder, "sub/a..b.tif"));
        Assert.Equal(Path.Combine(folder["sub"], "a.tif"), FolderFile.Resolve(folder, "sub\\a.tif"));
    }

    [Fact]
    public void Invalid_links_that_lead_out_or_nowhere()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "skipped: making links needs rights that users do not have there");
        using var folder = new TemporaryFolder();
        using var elsewhere = new TemporaryFolder();
        File.WriteAllText(elsewhere["a.tif"], "x");
        File.WriteAllText(folder["own.tif"], "x");
        File.CreateSymbolicLink(folder["out.tif"], elsewhere["a.tif"]);
        Directory.CreateSymbolicLink(folder["outside"], elsewhere);
        File.CreateSymbolicLink(folder["in.tif"], folder["own.tif"]);
        File.CreateSymbolicLink(folder["round.tif"], folder["round.tif"]);
        Assert.Equal("path-outside", Assert.Throws<InputProblem>(() => FolderFile.Resolve(folder, "out.tif")).Code);
        Assert.Equal("path-outside", Assert.Throws<InputProblem>(() => FolderFile.Resolve(folder, "outside/a.tif")).Code);
        Assert.Equal("link-broken", Assert.Throws<InputProblem>(() => FolderFile.Resolve(folder, "round.tif")).Code);
        Assert.Equal(folder["own.tif"], FolderFile.Resolve(folder, "in.tif"));
    }
}
