using System.Collections.Concurrent;
using System.Diagnostics;
using Sandarac.Benchmarks.Measuring;

namespace Sandarac.Benchmarks.Tiles;

/// <summary>Times from asking for a tile to its last byte.</summary>
internal sealed class Latencies
{
    private readonly ConcurrentBag<double> _milliseconds = [];

    /// <summary>Time during which requests were under way.</summary>
    public double Seconds { get; set; }

    private double? P95 => _milliseconds.IsEmpty ? null : Rounds.Percentile(_milliseconds, 0.95);

    public async Task Time(Func<Task> request)
    {
        var started = Stopwatch.GetTimestamp();
        await request();
        _milliseconds.Add(Stopwatch.GetElapsedTime(started).TotalMilliseconds);
    }

    public Figure Figure(string what, double? limit, Latencies peer) => new(what, "ms", P95)
    {
        Peer = peer.P95,
        PeerName = PlainFileServer.Name,
        Limit = limit is { } ms ? new Limit(ms, false) : null,
        Note = $"{_milliseconds.Count / Seconds:0} requests/s over {_milliseconds.Count}, p50 {Rounds.Percentile(_milliseconds, 0.5):0.0} ms, p99 {Rounds.Percentile(_milliseconds, 0.99):0.0} ms",
    };
}
