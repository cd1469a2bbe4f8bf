using System.Diagnostics;

namespace Sandarac.Benchmarks.Ingest;

/// <summary>Our side: the exact copy with its hash and the pyramid, as a studio takes a photograph in; then both are flushed to the disk.</summary>
internal static class IngestWork
{
    /// <returns>Seconds that the flushing took.</returns>
    public static double Run(string source, string copy, string pyramid)
    {
        Imaging.Storing.Ingest.Run(source, copy, pyramid);
        return Flush(copy, pyramid);
    }

    /// <returns>Seconds that the flushing took.</returns>
    public static double Flush(params ReadOnlySpan<string> files)
    {
        var started = Stopwatch.GetTimestamp();
        foreach (var file in files)
        {
            using var handle = File.OpenHandle(file, FileMode.Open, FileAccess.ReadWrite);
            RandomAccess.FlushToDisk(handle);
        }
        return Stopwatch.GetElapsedTime(started).TotalSeconds;
    }
}
