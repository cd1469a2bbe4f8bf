using Sandarac.Imaging;
using Sandarac.Imaging.Formats;
using Sandarac.Specimen.Output;

namespace Sandarac.Specimen.Tests.Drawing;

public class InvalidTests
{
    [Theory]
    [InlineData(39.9)]
    [InlineData(1201)]
    [InlineData(double.NaN)]
    public void A_resolution_out_of_range_is_refused(double ppi)
    {
        using var folder = new Folder();
        var problem = Assert.Throws<InputProblem>(() => SpecimenDrawing.Draw(new SpecimenSettings(ppi), folder.Path, null,
            TestContext.Current.CancellationToken));
        Assert.Equal("resolution-out-of-range", problem.Code);
        Assert.Empty(Directory.EnumerateFileSystemEntries(folder.Path));
    }

    [Fact]
    public void An_unknown_photograph_is_refused()
    {
        using var folder = new Folder();
        var problem = Assert.Throws<InputProblem>(() => SpecimenDrawing.Draw(new SpecimenSettings(40, OnlyPhotographs: ["VIS_02.tif"]),
            folder.Path, null, TestContext.Current.CancellationToken));
        Assert.Equal("VIS_02.tif", problem.Subject);
    }

    [Theory]
    [InlineData("layers", 0.2)]
    [InlineData("photographs", 0.60)]
    public void Cancelling_leaves_whole_files_only(string during, double at)
    {
        using var folder = new Folder();
        using var cancel = new CancellationTokenSource();
        string[] names = ["VIS_01.tif", "RAK_N_az000_el15.tif", "RAK_E_az090_el15.tif", "RAK_S_az180_el15.tif", "UVL_01.tif"];
        Assert.ThrowsAny<OperationCanceledException>(() => SpecimenDrawing.Draw(new SpecimenSettings(40, OnlyPhotographs: names),
            folder.Path, new Canceller(cancel, at), cancel.Token));
        var files = Directory.EnumerateFiles(folder.Path, "*", SearchOption.AllDirectories).ToArray();
        Assert.DoesNotContain(files, f => f.EndsWith(".part", StringComparison.Ordinal));
        Assert.Contains(files, f => f.Contains(during, StringComparison.Ordinal));
        foreach (var path in files.Where(f => f.EndsWith(".tif", StringComparison.Ordinal)))
        {
            using var file = ImageFile.Open(path);
            file.ReadWindow(0, file.Facts.Height - 1, file.Facts.Width, 1);
        }
        Assert.False(File.Exists(Path.Combine(folder.Path, "photographs", "UVL_01.tif")));
    }

    [Fact]
    public void A_file_that_is_not_committed_leaves_nothing()
    {
        using var folder = new Folder();
        var path = Path.Combine(folder.Path, "a.tif");
        using (var file = new TiffFile(path, new TiffLayout(8, 8, 1, 2, false, 100))) file.WriteRows<ushort>(0, new ushort[64]);
        Assert.Empty(Directory.EnumerateFileSystemEntries(folder.Path));
    }

    private sealed class Canceller(CancellationTokenSource cancel, double at) : IProgress<DrawingProgress>
    {
        public void Report(DrawingProgress value)
        {
            if (value.Fraction >= at) cancel.Cancel();
        }
    }
}
