using System.Security.Cryptography;
using Sandarac.Imaging.Formats;
using Sandarac.Imaging.Storing;
using Sandarac.Imaging.Tests.Formats;
using Sandarac.Imaging.Tiles;

namespace Sandarac.Imaging.Tests.Storing;

public sealed class IngestTests
{
    [Fact]
    public void Known_hash_of_a_published_message()
    {
        // FIPS 180-4 example: SHA-256("abc").
        using var folder = new TemporaryFolder();
        File.WriteAllText(folder["a"], "abc");
        var (hash, bytes) = HashingCopy.Copy(folder["a"], folder["b"], cancellation: TestContext.Current.CancellationToken);
        Assert.Equal(("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad", 3), (hash, bytes));
        Assert.Equal("abc", File.ReadAllText(folder["b"]));
    }

    [Fact]
    public void Roundtrip_copy_hash_and_pyramid_of_one_file()
    {
        using var folder = new TemporaryFolder();
        using (var image = TestImages.Rgb16(1100, 700)) image.Tiffsave(folder["a.tif"]);
        var result = Ingest.Run(folder["a.tif"], folder["copy"], folder["pyramid"], cancellation: TestContext.Current.CancellationToken);
        Assert.Equal(Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(folder["copy"]))), result.Sha256);
        Assert.Equal(File.ReadAllBytes(folder["a.tif"]), File.ReadAllBytes(folder["copy"]));
        Assert.Equal(result.Bytes, new FileInfo(folder["a.tif"]).Length);
        using var pyramid = PyramidFile.Open(folder["pyramid"]);
        Assert.Equal((1100, 700), (pyramid.Width, pyramid.Height));
    }

    [Fact]
    public void Invalid_a_file_that_grows_while_it_is_read_is_refused_and_nothing_is_left()
    {
        using var folder = new TemporaryFolder();
        File.WriteAllBytes(folder["a"], new byte[5_000_000]);
        var grow = new Grower(folder["a"]);
        var problem = Assert.Throws<InputProblem>(() => HashingCopy.Copy(folder["a"], folder["b"], grow, TestContext.Current.CancellationToken));
        Assert.Equal("file-changed", problem.Code);
        Assert.Equal(["a"], folder.Files);
    }

    /// <summary>A file of two terabytes, all hole: there is no disk for its copy.</summary>
    [Fact]
    public void Invalid_a_full_disk_is_found_before_the_work_and_nothing_is_left()
    {
        using var folder = new TemporaryFolder();
        Assert.SkipUnless(new DriveInfo(folder).AvailableFreeSpace < 2_000_000_000_000, "skipped: this disk has room for two terabytes");
        File.WriteAllBytes(folder["a.tif"], TiffBuilder.Grey8(100, 100).Build());
        using (var file = File.OpenWrite(folder["a.tif"])) file.SetLength(2_000_000_000_000);
        var limits = ImageLimits.Default with { MaxFileBytes = long.MaxValue };
        var problem = Assert.Throws<InputProblem>(() => Ingest.Run(folder["a.tif"], folder["copy"], folder["pyramid"], limits, cancellation: TestContext.Current.CancellationToken));
        Assert.Equal("disk-full", problem.Code);
        Assert.Equal(["a.tif"], folder.Files);
        Assert.Equal("disk-full", Assert.Throws<InputProblem>(() => new FloatRasterWriter(folder["raster"], 1_000_000, 600_000, 1)).Code);
        Assert.Equal(["a.tif"], folder.Files);
    }

    [Fact]
    public void Invalid_a_disk_that_fills_while_it_is_written_is_known_as_such()
    {
        Assert.SkipUnless(File.Exists("/dev/full"), "skipped: no device here that is always full");
        using var full = File.OpenHandle("/dev/full", FileMode.Open, FileAccess.Write);
        Assert.True(Disk.IsFull(Assert.ThrowsAny<IOException>(() => RandomAccess.Write(full, new byte[100], 0))));
    }

    [Fact]
    public void Invalid_cancelled_work_leaves_nothing()
    {
        using var folder = new TemporaryFolder();
        using (var image = TestImages.Rgb16(600, 2000)) image.Tiffsave(folder["a.tif"]);
        using var cancel = new CancellationTokenSource();
        Assert.ThrowsAny<OperationCanceledException>(() => Ingest.Run(folder["a.tif"], folder["copy"], folder["pyramid"], progress: new Canceller(cancel), cancellation: cancel.Token));
        Assert.Equal(["a.tif"], folder.Files);
    }

    private sealed class Grower(string path) : IProgress<long>
    {
        private bool _done;

        public void Report(long value)
        {
            if (_done) return;
            _done = true;
            File.AppendAllText(path, "more");
        }
    }

    private sealed class Canceller(CancellationTokenSource source) : IProgress<double>
    {
        public void Report(double value) => source.Cancel();
    }
}
