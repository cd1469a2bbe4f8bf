using System.Diagnostics;
using Sandarac.Studio.Storage;
using Sandarac.Studio.Tests.Support;

namespace Sandarac.Studio.Tests;

/// <summary>Kills an examination at random moments and looks at what it left.</summary>
public sealed class KillTests(ITestOutputHelper output)
{
    private const int Kills = 25;
    private const int Studios = 3;
    private const int Photographs = 4;

    [Fact]
    public void Killed_at_any_moment_nothing_reported_stored_is_lost_and_the_next_run_completes()
    {
        var seed = Environment.TickCount;
        output.WriteLine($"seed {seed}");
        using var home = new TemporaryStudio();
        home.Studio.Dispose();
        var photographs = Path.Combine(home.Root, "photographs");
        SmallPhotographs.WriteSet(photographs);
        for (var i = 2; i < Photographs - 1; i++) SmallPhotographs.Write(Path.Combine(photographs, $"VIS_0{i}.tif"), 3, 10 + i);
        var whole = Run(photographs, home.Folder + "-undisturbed", null, out var importing);
        Assert.Equal(["open", .. whole.Skip(1).SkipLast(1), "done"], whole);
        // A new studio every few kills, so that first imports are hit as often as resumed ones; the studios at once, for there are two processors.
        Parallel.For(0, Studios, studio => Kill(photographs, $"{home.Folder}-{studio}", new Random(seed + studio), importing, studio == 0 ? Kills - (Studios - 1) * (Kills / Studios) : Kills / Studios));
    }

    private static void Kill(string photographs, string folder, Random random, TimeSpan importing, int kills)
    {
        HashSet<string> reported = [];
        for (var kill = 0; kill < kills; kill++)
        {
            // Up to half as long again as an import takes.
            var after = TimeSpan.FromMilliseconds(random.NextDouble() * 1.5 * importing.TotalMilliseconds);
            reported.UnionWith(Run(photographs, folder, after, out _).Where(l => l.EndsWith(".tif", StringComparison.Ordinal)));
            Verify(folder, reported, $"kill {kill} after {after.TotalMilliseconds:0} ms");
        }
        Assert.Equal("done", Run(photographs, folder, null, out _)[^1]);
        Verify(folder, [.. Directory.GetFiles(photographs).Select(p => Path.GetFileName(p))], "completed");
    }

    private static void Verify(string folder, HashSet<string> reported, string when)
    {
        using var studio = OpenStudio.At(folder);
        using var db = studio.CreateDb();
        var stored = db.Photographs.ToDictionary(p => p.FileName);
        Assert.True(reported.IsSubsetOf(stored.Keys), $"{when}: reported {string.Join(", ", reported)}, stored {string.Join(", ", stored.Keys)}");
        Assert.All(stored.Values, p => Assert.Equal(p.Sha256, ObjectStore.Hash(studio.Objects.PathOf(p.Sha256))));
        Assert.All(db.Runs.ToList(), r => Assert.NotEqual(Record.RunState.Running, r.State));
        var report = new Checking(studio).Check(cancellation: TestContext.Current.CancellationToken);
        Assert.True(report.IsClean, $"{when}: {string.Join("; ", report.Findings)}");
        Assert.Equal(0, report.Leftovers);
    }

    /// <summary>Runs the child; kills it after a time counted from when its studio is open. Gives its lines, and when the last photograph was stored.</summary>
    private static List<string> Run(string photographs, string folder, TimeSpan? killAfter, out TimeSpan importing)
    {
        var start = new ProcessStartInfo(Environment.ProcessPath!, ["examine", photographs, folder]) { RedirectStandardOutput = true, RedirectStandardError = true };
        // A child that lives for a second gains nothing from profiling itself.
        start.Environment["DOTNET_TieredPGO"] = "0";
        using var child = Process.Start(start)!;
        List<string> lines = [];
        while (lines.Count == 0 && child.StandardOutput.ReadLine() is { } first) lines.Add(first);
        var watch = Stopwatch.StartNew();
        if (killAfter is { } after)
        {
            child.WaitForExit(after);
            child.Kill();
        }
        importing = TimeSpan.Zero;
        while (child.StandardOutput.ReadLine() is { } line)
        {
            lines.Add(line);
            if (line.EndsWith(".tif", StringComparison.Ordinal)) importing = watch.Elapsed;
        }
        child.WaitForExit();
        if (killAfter is null) Assert.True(child.ExitCode == 0, child.StandardError.ReadToEnd());
        return lines;
    }
}
