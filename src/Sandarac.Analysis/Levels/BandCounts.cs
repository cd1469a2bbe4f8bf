using System.Buffers;
using Sandarac.Analysis.Declaring;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Levels;

/// <summary>
/// How often each value occurs in a band: exact for whole numbers up to 65535; otherwise in 65536 steps between the least and the greatest value.
/// Counts do not depend on the order in which pixels are visited, so neither tiles nor threads change them.
/// </summary>
internal sealed class BandCounts(long[] counts, double minimum, double step, long missing)
{
    private const int Bins = 65536;
    private const int TileSize = 512;

    /// <summary>Pixels without data.</summary>
    public long Missing => missing;

    /// <summary>Pixels with data.</summary>
    public long Total { get; } = counts.Sum();

    /// <summary>Count of each bin.</summary>
    public IReadOnlyList<long> Counts => counts;

    /// <summary>Value of a bin.</summary>
    public double Value(int bin) => minimum + bin * step;

    /// <summary>The least value with at least this share (0 to 1) of the pixels at or below it; NaN without data.</summary>
    public double Quantile(double share)
    {
        var wanted = Math.Max(1, (long)Math.Ceiling(share * Total));
        long sum = 0;
        for (var i = 0; i < Bins; i++)
            if ((sum += counts[i]) >= wanted) return Value(i);
        return double.NaN;
    }

    /// <summary>Share (0 to 1) of the pixels with data at or above a value.</summary>
    public double ShareFrom(double value) => Total == 0 ? double.NaN : (double)Enumerable.Range(0, Bins).Where(i => Value(i) >= value).Sum(i => counts[i]) / Total;

    /// <summary>Counts planes that are derived from images window by window, pixel by pixel.</summary>
    /// <param name="images">Images of one size.</param>
    /// <param name="planes">How many planes <paramref name="derive"/> gives.</param>
    /// <param name="whole">Whether to count in whole numbers from 0 to 65535 (others are rounded).</param>
    /// <param name="derive">From the windows (image, band) to the planes to count; NaN is no data.</param>
    /// <param name="context">Threads, progress, cancellation.</param>
    public static IReadOnlyList<BandCounts> Of(IReadOnlyList<InputImage> images, int planes, bool whole, Func<Plane[][], Plane[]> derive, RunContext context)
    {
        var ranges = whole ? [.. Enumerable.Repeat((Minimum: 0.0, Maximum: Bins - 1.0), planes)] : Ranges(images, planes, derive, context);
        var counts = ranges.Select(_ => new long[Bins]).ToArray();
        var missing = new long[planes];
        TiledRun.Map(images, TileSize, 0, (_, windows) =>
        {
            var derived = derive(windows);
            for (var b = 0; b < planes; b++) Add(derived[b].Data, ranges[b], counts[b], ref missing[b]);
            return 0;
        }, context);
        return [.. ranges.Select((r, b) => new BandCounts(counts[b], r.Minimum, Step(r), missing[b]))];
    }

    private static double Step((double Minimum, double Maximum) range) => range.Maximum > range.Minimum ? (range.Maximum - range.Minimum) / (Bins - 1) : 1;

    private static void Add(float[] data, (double Minimum, double Maximum) range, long[] counts, ref long missing)
    {
        var (minimum, perStep) = (range.Minimum, 1 / Step(range));
        // A new array of this size for every tile would keep the garbage collector busy.
        var local = ArrayPool<int>.Shared.Rent(Bins);
        Array.Clear(local);
        var none = 0;
        foreach (var v in data)
            if (!float.IsFinite(v)) none++;
            else local[Math.Clamp((int)Math.Round((v - minimum) * perStep), 0, Bins - 1)]++;
        lock (counts)
        {
            missing += none;
            for (var i = 0; i < Bins; i++) counts[i] += local[i];
        }
        ArrayPool<int>.Shared.Return(local);
    }

    private static (double Minimum, double Maximum)[] Ranges(IReadOnlyList<InputImage> images, int planes, Func<Plane[][], Plane[]> derive, RunContext context)
    {
        var tiles = TiledRun.Map(images, TileSize, 0, (_, windows) => derive(windows).Select(p => Range(p.Data)).ToArray(), context);
        return [.. Enumerable.Range(0, planes).Select(b => (tiles.Min(t => t[b].Minimum), tiles.Max(t => t[b].Maximum))).Select(r => r.Item1 <= r.Item2 ? r : (0, 0))];
    }

    private static (double Minimum, double Maximum) Range(float[] data)
    {
        var (low, high) = (double.PositiveInfinity, double.NegativeInfinity);
        foreach (var v in data)
            if (float.IsFinite(v)) (low, high) = (Math.Min(low, v), Math.Max(high, v));
        return (low, high);
    }
}
