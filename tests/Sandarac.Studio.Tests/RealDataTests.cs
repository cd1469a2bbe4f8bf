using Sandarac.Studio.Record;
using Sandarac.Studio.Tests.Support;

namespace Sandarac.Studio.Tests;

/// <summary>Photographs that no one here made, read in place; skipped where they are not present.</summary>
public sealed class RealDataTests(ITestOutputHelper output)
{
    private static string Data(string name)
    {
        var folders = new List<string?> { Environment.GetEnvironmentVariable("SANDARAC_DATA") };
        for (var at = AppContext.BaseDirectory; at is not null; at = Path.GetDirectoryName(at)) folders.Add(Path.Combine(at, "shared", "data"));
        var found = folders.OfType<string>().Select(f => Path.Combine(f, name)).FirstOrDefault(Directory.Exists);
        if (found is null) Assert.Skip($"Data not present: {name}. Set SANDARAC_DATA to its folder.");
        return found;
    }

    /// <summary>A photographed painting in visible and near-infrared light, already aligned within 0.1 px (Lapray et al., SPIE 10677, 2018).</summary>
    [Fact]
    public void A_painting_photographed_in_visible_and_infrared_ends_on_one_plane_with_a_false_colour()
    {
        using var home = new TemporaryStudio();
        var examination = new Examining(home.Studio).Examine(Data("multiband"), new ExamineOptions { CornersOnly = true }, cancellation: TestContext.Current.CancellationToken);
        Report(examination);
        Assert.Contains(examination.Photographs, p => p.Light == "VIS" && p.Alignments.InForce()!.PlaneImage is not null);
        Assert.Contains(examination.Photographs, p => p.Light == "IR" && p.Alignments.InForce()!.PlaneImage is not null);
        Assert.Contains(examination.Runs, r => r is { ReadingId: "false-colour", State: RunState.Done });
        Assert.True(File.Exists(examination.DocumentPath));
    }

    /// <summary>Public PNG and TIFF test images, valid, exotic and malformed.</summary>
    [Fact]
    public void A_folder_of_odd_and_broken_files_is_imported_or_explained_and_nothing_falls_over()
    {
        using var home = new TemporaryStudio();
        var folder = Data("formats");
        var examination = new Examining(home.Studio).Examine(folder, new ExamineOptions { CornersOnly = true }, cancellation: TestContext.Current.CancellationToken);
        Report(examination);
        Assert.NotEmpty(examination.Photographs);
        Assert.NotEmpty(examination.Refusals);
        var files = Directory.GetFiles(folder, "*", SearchOption.AllDirectories).Count(f => !Path.GetRelativePath(folder, f).Split('/').Any(p => p.StartsWith('.')));
        Assert.Equal(files, examination.Photographs.Count + examination.Refusals.Count + examination.AlreadyThere.Count);
        Assert.True(new Checking(home.Studio).Check(cancellation: TestContext.Current.CancellationToken).IsClean);
    }

    private void Report(Examination examination)
    {
        foreach (var p in examination.Photographs) output.WriteLine($"{p.FileName}: {p.Light ?? "?"} {p.Alignments.InForce()?.Verdict} {p.Alignments.InForce()?.Reason}");
        foreach (var r in examination.Refusals) output.WriteLine($"refused {r.File}: {r.Message} {r.Remedy}");
        foreach (var w in examination.Warnings) output.WriteLine($"warning: {w.Message}");
    }
}
