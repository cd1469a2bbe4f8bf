using System.Collections.Concurrent;
using System.Diagnostics;
using Sandarac.Benchmarks.MainJob;
using Sandarac.Benchmarks.Measuring;
using Sandarac.Specimen;

namespace Sandarac.Benchmarks.Tiles;

/// <summary>
/// Tiles over loopback from the real server process, under several clients that each ask for the next tile as soon as they have the last. The
/// clients run on the same machine and take their share of it. The server is started anew for each number of clients; after each screen of
/// its tiles the peer sends as many.
/// </summary>
internal sealed class TilesBenchmark : Benchmark
{
    /// <summary>Tiles on a large screen: 8 x 6 of 512 pixels. Cold and warm are measured one screen after the other.</summary>
    private const int Screen = 48;

    private static readonly string[] Photographs = ["VIS_01.tif", "VIS_flat.tif", "UVL_01.tif", "UVL_flat.tif", "IR_01.tif", "IR_flat.tif"];

    public override string Name => "tiles";

    public override string Summary => "tile requests over loopback beside a plain file server; cold: first request since the server's start, warm: the same screen again";

    public override IEnumerable<Figure> Run(Settings settings)
    {
        var ppi = settings.Quick ? 80 : 300;
        var studio = Prepare(settings.Folder, ppi);
        foreach (var clients in (int[])[1, 8, 32])
        {
            var (cold, warm, peer) = Measure(studio, clients, settings.Quick ? 3 : 12, Path.Combine(settings.Folder, $"peer{clients}")).Result;
            yield return cold.Figure($"tiles at {ppi} ppi, {clients} clients, cold: p95", clients == 8 && !settings.Quick ? 25 : null, peer);
            yield return warm.Figure($"tiles at {ppi} ppi, {clients} clients, warm: p95", clients == 8 && !settings.Quick ? 5 : null, peer);
        }
    }

    private static string Prepare(string folder, int ppi)
    {
        var (specimen, studio) = (Path.Combine(folder, "specimen"), Path.Combine(folder, "studio"));
        Say($"drawing and examining three lights at {ppi} ppi");
        SpecimenDrawing.Draw(new SpecimenSettings(ppi, OnlyPhotographs: Photographs), specimen);
        Child.Run(Child.Sandarac("examine", Path.Combine(specimen, "photographs"), "--studio", studio, "--height-mm", "412", "--width-mm", "518"));
        return studio;
    }

    private static async Task<(Latencies Cold, Latencies Warm, Latencies Peer)> Measure(string studio, int clients, int screens, string folder)
    {
        using var server = await RunningServer.Start(studio);
        using var plain = await PlainFileServer.Start(folder);
        var painting = await server.FirstPainting();
        var tiles = painting.Layers.Where(l => l.OnPlane && l.Kind == "photograph").SelectMany(l => l.Tiles(_ => true)).ToArray();
        new Random(1).Shuffle(tiles);
        await server.Client.GetByteArrayAsync($"/api/layers/{painting.Layers[0].Id}/thumbnail");
        var (cold, warm, peer) = (new Latencies(), new Latencies(), new Latencies());
        foreach (var screen in tiles.Chunk(Screen).Take(screens))
        {
            await Ask(server.Client, clients, screen, cold);
            await Ask(server.Client, clients, screen, warm);
            if (plain is not null) await Ask(plain.Client, clients, [.. screen.Select(_ => "/tile")], peer);
        }
        return (cold, warm, peer);
    }

    private static async Task Ask(HttpClient client, int clients, string[] tiles, Latencies latencies)
    {
        var queue = new ConcurrentQueue<string>(tiles);
        var started = Stopwatch.GetTimestamp();
        await Task.WhenAll(Enumerable.Range(0, clients).Select(async _ =>
        {
            await Task.Yield();
            while (queue.TryDequeue(out var tile)) await latencies.Time(() => Fetch(client, tile));
        }));
        latencies.Seconds += Stopwatch.GetElapsedTime(started).TotalSeconds;
    }

    private static async Task Fetch(HttpClient client, string tile)
    {
        using var answer = await client.GetAsync(tile, HttpCompletionOption.ResponseHeadersRead);
        answer.EnsureSuccessStatusCode();
        await answer.Content.CopyToAsync(Stream.Null);
    }
}
