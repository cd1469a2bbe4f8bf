using System.Diagnostics;
using Sandarac.Benchmarks.Measuring;

namespace Sandarac.Benchmarks.MainJob;

/// <summary>The main job at the demonstration's resolution: draw, examine, and a later start to a page that can be worked with.</summary>
internal sealed class ExamineBenchmark : Benchmark
{
    private const int Starts = 3;

    public override string Name => "examine";

    public override string Summary => "drawing and examining the specimen, then starting again, as a person would run it";

    public override IEnumerable<Figure> Run(Settings settings)
    {
        var ppi = settings.Quick ? 60 : 150;
        var (specimen, studio) = (Path.Combine(settings.Folder, "specimen"), Path.Combine(settings.Folder, "studio"));
        var drawing = Child.Run(Child.Sandarac("specimen", specimen, "--ppi", $"{ppi}"));
        var examining = Child.Run(Child.Sandarac("examine", Path.Combine(specimen, "photographs"), "--studio", studio, "--height-mm", "412", "--width-mm", "518"));
        yield return new Figure($"specimen at {ppi} ppi drawn and examined", "s", drawing.Seconds + examining.Seconds)
        {
            Limit = settings.Quick ? null : new Limit(90, false),
            Note = $"drawing {drawing.Seconds:0.0} s, examining {examining.Seconds:0.0} s with peak memory {examining.PeakMegabytes:0} MB",
        };
        yield return new Figure("second start to a usable Easel", "s", Rounds.Median(Enumerable.Range(0, Starts).Select(_ => SecondStart(studio).Result).ToList()))
        {
            Limit = new Limit(5, false),
            Note = $"until page, viewer, layers, all thumbnails and a first tile are there; median of {Starts} starts",
        };
    }

    /// <summary>Everything that the page asks for before a person sees the painting; drawing in the browser itself is not in it.</summary>
    private static async Task<double> SecondStart(string studio)
    {
        var started = Stopwatch.GetTimestamp();
        using var server = await RunningServer.Start(studio);
        var painting = await server.FirstPainting();
        string[] page = [$"/paintings/{painting.Id}/easel", "/viewer/easel.js", .. painting.Layers.Select(l => $"/api/layers/{l.Id}/thumbnail?v={l.Version}")];
        foreach (var part in page) await server.Client.GetByteArrayAsync(part);
        await server.Client.GetByteArrayAsync(painting.Layers.First(l => l.OnPlane).Tiles(l => l == 0).First());
        return Stopwatch.GetElapsedTime(started).TotalSeconds;
    }
}
