using Sandarac.Analysis.Levels;

namespace Sandarac.Analysis.Quality;

/// <summary>Values that are piled up at an end of a band's range, where differences are lost.</summary>
/// <param name="LowShare">Share of pixels at the low end, 0 to 1.</param>
/// <param name="HighShare">Share of pixels at the high end.</param>
/// <param name="LowLevel">The value at which they pile up below: 0, or a higher black level.</param>
/// <param name="HighLevel">The value at which they pile up above: full scale, or a lower plateau.</param>
internal sealed record Clipping(double LowShare, double HighShare, double LowLevel, double HighLevel)
{
    /// <summary>How many times the count of its neighbours an end value must have to be a plateau. A tail of unclipped values thins out towards
    /// its end, so its ratio is near or below 1; clipping gathers a whole tail in one value.</summary>
    private const double PlateauRatio = 10;

    /// <summary>Fewest pixels that make a plateau: one hot pixel repeated in a few places is none.</summary>
    private const long PlateauPixels = 50;

    /// <summary>Occupied values beside the end that are compared with it.</summary>
    private const int Neighbours = 16;

    /// <summary>Measures both ends. A file written from fewer bits, or clipped before it was scaled, has its plateau below full scale: it is found
    /// by being piled up. The ends of the format itself count whatever their neighbours hold.</summary>
    /// <param name="counts">The band's counts.</param>
    /// <param name="fullScale">Largest value of the format.</param>
    public static Clipping Of(BandCounts counts, double fullScale)
    {
        if (counts.Total == 0) return new Clipping(0, 0, 0, fullScale);
        var occupied = Enumerable.Range(0, counts.Counts.Count).Where(i => counts.Counts[i] > 0).ToArray();
        var low = End(counts, occupied, 0);
        var high = End(counts, occupied.Reverse(), fullScale);
        return new Clipping(low.Share, high.Share, low.Level, high.Level);
    }

    private static (double Share, double Level) End(BandCounts counts, IEnumerable<int> inward, double formatEnd)
    {
        var bins = inward.Take(Neighbours + 1).ToArray();
        var (end, count) = (counts.Value(bins[0]), counts.Counts[bins[0]]);
        var neighbours = bins.Skip(1).Select(b => (double)counts.Counts[b]).DefaultIfEmpty(double.PositiveInfinity).Average();
        var piled = end == formatEnd || (count >= PlateauPixels && count >= PlateauRatio * neighbours);
        return piled ? ((double)count / counts.Total, end) : (0, formatEnd);
    }
}
