using Sandarac.Imaging;
using Sandarac.Studio.Tests.Support;
using static Sandarac.Studio.Tests.Support.ExportedWalk;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Tests.Walking;

public sealed class WalkExportTests : IDisposable
{
    private const string Hostile = "</script><script>alert(1)</script>\n<img src=x onerror=alert(1)> & \"quotes\" \u2028 \u202e\nהציור נוקה בשנה שעברה";

    private readonly ExportedWalk _walk = new();

    public void Dispose() => _walk.Dispose();

    [Fact]
    public void What_people_wrote_stays_text()
    {
        _walk.Export(Walk(Step(_walk.Visible(), caption: Hostile)) with { Title = "<h1>\"&" });
        var (page, script) = (File.ReadAllText(_walk.PathOf("out", "index.html")), File.ReadAllText(_walk.PathOf("out", "data.js")));
        Assert.DoesNotContain("<script>alert", page, StringComparison.Ordinal);
        Assert.DoesNotContain("<img src=x", page, StringComparison.Ordinal);
        Assert.DoesNotContain("<", script, StringComparison.Ordinal);
        Assert.Equal(Hostile, (string)_walk.Data()["steps"]![0]!["caption"]!);
    }

    [Fact]
    public void What_is_gone_is_said_and_the_rest_is_shown()
    {
        var visible = _walk.Visible();
        var zones = new Zones(_walk.Studio);
        var zone = zones.Create(_walk.Painting.Id, new ZoneContent("Gone", "loss", "", Shapes[3]));
        zones.Delete(zone.Id, zone.Revision);
        var gone = $"p-{Guid.NewGuid()}";
        var made = _walk.Export(Walk(Step(gone, zones: [zone.Id]), Step(visible, gone, ViewCompare.Divide), Step(visible, lamp: 90)));
        var steps = _walk.Data()["steps"]!;
        Assert.Equal(("vis", "alone"), ((string)steps[0]!["a"]!, (string)steps[1]!["mode"]!));
        Assert.Equal(
        [
            "View 1, \"A view\": The picture that it was written for is no longer there; VIS_01 is shown.", "View 1, \"A view\": 1 of its zones is no longer there, or only proposed.",
            "View 2, \"A view\": What it was compared with is no longer there.", "View 3, \"A view\": The measured surface that a lamp lit is no longer there.",
        ], made.Warnings.Select(w => w.Message));
    }

    [Fact]
    public void Bad_requests_are_refused_and_leave_nothing()
    {
        void Refused(string code, WalkContent? walk, WalkExportOptions options, string folder = "refused")
        {
            Assert.Equal(code, Assert.Throws<InputProblem>(() => _walk.Export(walk, options, folder)).Code);
            if (folder == "refused") Assert.False(Directory.Exists(_walk.PathOf(folder)) || Directory.Exists(_walk.PathOf(folder + ".part")));
        }
        Refused("nothing-aligned", null, new WalkExportOptions());
        var visible = _walk.Visible();
        Refused("walk-empty", Walk(), new WalkExportOptions());
        foreach (var address in (string[])["", "museum", "ftp://museum.example/", "file:///tmp", "https://museum.example/?a=b"]) Refused("base-address", null, new WalkExportOptions { BaseAddress = address });
        Refused("rights", null, new WalkExportOptions { Rights = "https://creativecommons.org/licenses/by/4.0/" });
        Refused("longest-side", null, new WalkExportOptions { LongestSide = 100 });
        Refused("folder-taken", Walk(Step(visible)), new WalkExportOptions(), "viewer");
    }

    [Fact]
    public void A_cancelled_export_leaves_nothing_and_progress_runs_to_its_end()
    {
        _walk.Visible();
        using var cancel = new CancellationTokenSource();
        var watch = new Watch(done => { if (done > 0.3) cancel.Cancel(); });
        Assert.ThrowsAny<OperationCanceledException>(() => _walk.Export(null, folder: "cancelled", progress: watch, stop: cancel.Token));
        Assert.DoesNotContain(Directory.EnumerateDirectories(_walk.Home.Root), d => d.Contains("cancelled", StringComparison.Ordinal));
        var seen = new System.Collections.Concurrent.ConcurrentBag<double>();
        var made = _walk.Export(null, folder: "whole", progress: new Watch(seen.Add));
        Assert.Equal(1, seen.Max());
        Assert.Equal(made.Files, Directory.EnumerateFiles(_walk.PathOf("whole", "pictures"), "*", SearchOption.AllDirectories).LongCount());
    }

    private sealed class Watch(Action<double> told) : IProgress<double>
    {
        public void Report(double value) => told(value);
    }
}
