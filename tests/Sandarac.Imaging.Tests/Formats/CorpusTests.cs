using Sandarac.Imaging.Formats;
using Sandarac.Imaging.Tiles;

namespace Sandarac.Imaging.Tests.Formats;

/// <summary>
/// Public test images, valid, exotic, malformed, some made to loop or to fill memory (PngSuite of W. van Schaik, libtiff's pictures, fuzzed TIFF): each is
/// taken in or refused in words, never anything else. One guard against hanging for each file; it is far above any time seen.
/// </summary>
public sealed class CorpusTests
{
    private static readonly TimeSpan Guard = TimeSpan.FromMinutes(1);

    [Fact]
    public Task Extreme_files_in_the_checkout_are_read_or_refused_in_words() => AllIn(Path.Combine(AppContext.BaseDirectory, "References", "Formats"), 12);

    [Fact]
    public Task Extreme_every_public_test_file_beside_the_checkout_is_read_or_refused_in_words() => AllIn(Data.Folder("formats"), 300);

    private static async Task AllIn(string root, int atLeast)
    {
        using var folder = new TemporaryFolder();
        var (files, defects) = (0, new List<string>());
        foreach (var file in Directory.EnumerateFiles(root, "*", SearchOption.AllDirectories).Order(StringComparer.Ordinal))
        {
            files++;
            try
            {
                await Task.Run(() => Take(file, folder["pyramid"]), TestContext.Current.CancellationToken).WaitAsync(Guard, TestContext.Current.CancellationToken);
            }
            catch (InputProblem p)
            {
                if (p.Message.Length == 0 || p.Remedy.Length == 0 || p.Message.Contains("vips", StringComparison.Ordinal)) defects.Add($"{file}: {p.Message} {p.Remedy}");
                if (File.Exists(folder["pyramid"])) defects.Add($"{file}: left a file behind");
            }
            catch (Exception e)
            {
                defects.Add($"{file}: {e}");
            }
            File.Delete(folder["pyramid"]);
        }
        Assert.Empty(defects);
        Assert.True(files >= atLeast, $"Only {files} files were there.");
    }

    private static void Take(string file, string pyramid)
    {
        using var image = ImageFile.Open(file);
        PyramidFile.Write(image, pyramid, cancellation: TestContext.Current.CancellationToken);
        image.ReadWindow(0, 0, image.Facts.Width, Math.Min(16, image.Facts.Height));
    }
}
