using System.Diagnostics;
using System.Net.Http.Json;
using Sandarac.Benchmarks.Measuring;

namespace Sandarac.Benchmarks.MainJob;

/// <summary>A layer as the server describes it, as far as its tiles go.</summary>
internal sealed record ServedLayer(string Id, string Kind, string Label, bool OnPlane, int Width, int Height, int Levels, int TileSize, string Format, string Version)
{
    /// <summary>Addresses of all tiles of some levels; level 0 is full size, each further one half of the one before.</summary>
    public IEnumerable<string> Tiles(Func<int, bool> levels) =>
        from level in Enumerable.Range(0, Levels).Where(levels)
        from row in Enumerable.Range(0, TilesAlong(Height, level))
        from column in Enumerable.Range(0, TilesAlong(Width, level))
        select $"/api/layers/{Id}/tiles/{level}/{column}/{row}?v={Version}";

    private int TilesAlong(int pixels, int level) => (pixels + (TileSize << level) - 1) / (TileSize << level);
}

/// <summary>A painting as the server describes it.</summary>
internal sealed record ServedPainting(Guid Id, IReadOnlyList<ServedLayer> Layers);

/// <summary>The program's server in a process of its own, on a free loopback port.</summary>
internal sealed class RunningServer : IDisposable
{
    private readonly Process _process;

    private RunningServer(Process process, Uri address)
    {
        _process = process;
        Client = new HttpClient(new SocketsHttpHandler { UseProxy = false }) { BaseAddress = address };
    }

    public HttpClient Client { get; }

    /// <summary>Largest resident memory so far, 10^6 bytes.</summary>
    public double? PeakMegabytes => Child.PeakOf(_process.Id);

    public static async Task<RunningServer> Start(string studio)
    {
        var process = Process.Start(Child.Sandarac("open", "--studio", studio, "--port", "0", "--no-browser"))!;
        var errors = process.StandardError.ReadToEndAsync();
        var address = await process.StandardOutput.ReadLineAsync() ?? throw new InvalidOperationException($"The server did not start: {await errors}");
        return new RunningServer(process, new Uri(address));
    }

    public async Task<ServedPainting> FirstPainting()
    {
        var paintings = await Client.GetFromJsonAsync<List<ServedPaintingInList>>("/api/paintings");
        return (await Client.GetFromJsonAsync<ServedPainting>($"/api/paintings/{paintings![0].Id}"))!;
    }

    public void Dispose()
    {
        Client.Dispose();
        _process.Kill();
        _process.WaitForExit();
        _process.Dispose();
    }

    private sealed record ServedPaintingInList(Guid Id);
}
