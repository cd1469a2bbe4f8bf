using System.Diagnostics;
using Sandarac.Studio.Archive;

namespace Sandarac.Studio.Tests.Archive;

/// <summary>Kills packing and unpacking at random moments and looks at what they left.</summary>
[Trait("Speed", "slow")]
public sealed class PackKillTests(ITestOutputHelper output)
{
    private const int Kills = 8;

    [Fact]
    public void A_killed_packing_leaves_no_half_package_under_its_name()
    {
        using var studios = new PackStudios();
        var painting = Large(studios);
        var random = Seeded();
        var whole = Run(TimeSpan.MaxValue, "pack", studios.A.Folder, $"{painting}", studios["whole.zip"]);
        var finished = 0;
        for (var i = 0; i < Kills; i++)
        {
            var target = studios[i % 2 == 0 ? $"bag{i}" : $"bag{i}.zip"];
            Run((0.2 + random.NextDouble()) * whole, "pack", studios.A.Folder, $"{painting}", target);
            if (!Path.Exists(target)) continue;
            finished++;
            Assert.True(Unpacking.Check(target, null, TestContext.Current.CancellationToken).IsSound, $"kill {i}");
        }
        output.WriteLine($"{finished} of {Kills} were finished before they were killed; undisturbed it takes {whole.TotalMilliseconds:0} ms");
        Assert.InRange(finished, 0, Kills - 1);
    }

    [Fact]
    public void A_killed_unpacking_leaves_the_studio_as_before()
    {
        using var studios = new PackStudios();
        var painting = Large(studios);
        PackStudios.Pack(studios.A, painting, studios["bag"]);
        var random = Seeded();
        var whole = Run(TimeSpan.MaxValue, "unpack", studios["undisturbed"], "-", studios["bag"]);
        var finished = 0;
        for (var i = 0; i < Kills; i++)
        {
            Run((0.2 + random.NextDouble()) * whole, "unpack", studios[$"studio{i}"], "-", studios["bag"]);
            using var studio = OpenStudio.At(studios[$"studio{i}"]);
            using (var db = studio.CreateDb())
            {
                var there = db.Paintings.Any();
                finished += there ? 1 : 0;
                if (there) Assert.Equal(PackStudios.Rows(studios.A, painting), PackStudios.Rows(studio, painting));
                else Assert.Empty(db.Photographs.Select(p => p.Id).Concat(db.Zones.Select(z => z.Id)).Concat(db.Runs.Select(r => r.Id)));
                if (!there) Assert.Empty(Directory.GetFiles(Path.Combine(studio.Folder, "objects"), "*", SearchOption.AllDirectories));
            }
            var report = new Checking(studio).Check(cancellation: TestContext.Current.CancellationToken);
            Assert.True(report.IsClean, $"kill {i}: {string.Join("; ", report.Findings)}");
            Assert.Equal(0, report.Leftovers);
            if (i == Kills - 1) PackStudios.Unpack(studio, studios["bag"]);
        }
        output.WriteLine($"{finished} of {Kills} were finished before they were killed; undisturbed it takes {whole.TotalMilliseconds:0} ms");
        Assert.InRange(finished, 0, Kills - 1);
    }

    private Random Seeded()
    {
        var seed = Environment.TickCount;
        output.WriteLine($"seed {seed}");
        return new Random(seed);
    }

    /// <summary>A record whose originals take a while to copy.</summary>
    private static Guid Large(PackStudios studios)
    {
        var painting = RandomRecord.Write(studios.A, 21);
        using var db = studios.A.CreateDb();
        for (var i = 0; i < 12; i++)
        {
            var path = studios.A.Objects.NewTemporaryPath();
            var bytes = new byte[4 << 20];
            new Random(i).NextBytes(bytes);
            File.WriteAllBytes(path, bytes);
            var stored = studios.A.Objects.Adopt(path, null, "image/tiff", isDerived: false);
            db.Photographs.Add(new Record.Photograph { PaintingId = painting, FileName = $"large{i}.tif", Sha256 = stored.Sha256, Facts = db.Photographs.First().Facts });
            Record.Saving.SaveWithObjects(db, [stored]);
            studios.A.Objects.Confirm(stored.Sha256);
        }
        return painting;
    }

    /// <summary>Runs the child and kills it after a time counted from when its studio is open; how long that took.</summary>
    private static TimeSpan Run(TimeSpan killAfter, params string[] arguments)
    {
        using var child = Process.Start(new ProcessStartInfo(Environment.ProcessPath!, arguments) { RedirectStandardOutput = true, RedirectStandardError = true })!;
        Assert.Equal("open", child.StandardOutput.ReadLine());
        var watch = Stopwatch.StartNew();
        if (killAfter != TimeSpan.MaxValue)
        {
            child.WaitForExit(killAfter);
            child.Kill();
        }
        var said = child.StandardOutput.ReadLine();
        var took = watch.Elapsed;
        child.WaitForExit();
        if (killAfter == TimeSpan.MaxValue) Assert.True(said == "done", child.StandardError.ReadToEnd());
        return took;
    }
}
