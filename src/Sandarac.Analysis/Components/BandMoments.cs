using System.Runtime.Intrinsics;
using Sandarac.Analysis.Declaring;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Components;

/// <summary>
/// Sums over pixels from which covariances follow, for pixels that have data in every band. Within a tile in two passes, mean first; tiles are joined by the
/// pairwise formula of Chan, Golub and LeVeque, The American Statistician 37 (1983) 242, so that nothing cancels however large the mean is.
/// </summary>
/// <param name="bands">Number of bands.</param>
internal sealed class BandMoments(int bands)
{
    /// <summary>Pixels with data in every band.</summary>
    public long Count { get; private set; }

    /// <summary>The other pixels.</summary>
    public long Missing { get; private set; }

    /// <summary>Mean of each band.</summary>
    public double[] Mean { get; } = new double[bands];

    /// <summary>Sums of products of deviations from the mean, for each pair of bands [a, b] with a not above b.</summary>
    public double[,] Products { get; } = new double[bands, bands];

    /// <summary>Pairs of neighbours, right and below, that both have data in every band.</summary>
    public long Pairs { get; private set; }

    /// <summary>Sums of products of the differences between neighbours, as <see cref="Products"/>.</summary>
    public double[,] Differences { get; } = new double[bands, bands];

    /// <summary>Sums over a tile.</summary>
    /// <param name="window">The bands, with a halo of one pixel, of which the right and lower neighbours are used.</param>
    /// <param name="tile">Where the tile lies in the window.</param>
    public static BandMoments Of(IReadOnlyList<Plane> window, Tile tile)
    {
        var sums = new BandMoments(window.Count);
        var valid = Valid(window);
        sums.TakeMeans(window, tile, valid);
        var rows = window.Select(_ => new double[tile.Width]).ToArray();
        var places = new int[tile.Width];
        var wide = window[0].Width;
        for (var y = tile.OffsetY; y < tile.OffsetY + tile.Height; y++)
        {
            var found = Places(valid, y * wide + tile.OffsetX, tile.Width, 0, places);
            for (var b = 0; b < rows.Length; b++)
                for (var i = 0; i < found; i++) rows[b][i] = window[b].Data[places[i]] - sums.Mean[b];
            AddProducts(rows, found, sums.Products);
            sums.AddDifferences(window, rows, Places(valid, y * wide + tile.OffsetX, Math.Min(tile.Width, wide - 1 - tile.OffsetX), 1, places), 1, places);
            if (y + 1 < window[0].Height) sums.AddDifferences(window, rows, Places(valid, y * wide + tile.OffsetX, tile.Width, wide, places), wide, places);
        }
        return sums;
    }

    /// <summary>Joins the sums of other pixels to these.</summary>
    public void Add(BandMoments other)
    {
        (Missing, Pairs) = (Missing + other.Missing, Pairs + other.Pairs);
        var all = Count + other.Count;
        var weight = all == 0 ? 0 : (double)other.Count / all;
        double[] shift = [.. other.Mean.Select((m, b) => m - Mean[b])];
        for (var a = 0; a < shift.Length; a++)
            for (var b = a; b < shift.Length; b++)
            {
                Products[a, b] += other.Products[a, b] + shift[a] * shift[b] * weight * Count;
                Differences[a, b] += other.Differences[a, b];
            }
        for (var b = 0; b < shift.Length; b++) Mean[b] += shift[b] * weight;
        Count = all;
    }

    private void TakeMeans(IReadOnlyList<Plane> window, Tile tile, bool[] valid)
    {
        for (var y = 0; y < tile.Height; y++)
            for (var i = (y + tile.OffsetY) * window[0].Width + tile.OffsetX; i < (y + tile.OffsetY) * window[0].Width + tile.OffsetX + tile.Width; i++)
            {
                if (!valid[i]) continue;
                Count++;
                for (var b = 0; b < Mean.Length; b++) Mean[b] += window[b].Data[i];
            }
        Missing = (long)tile.Width * tile.Height - Count;
        for (var b = 0; b < Mean.Length && Count > 0; b++) Mean[b] /= Count;
    }

    private void AddDifferences(IReadOnlyList<Plane> window, double[][] rows, int found, int step, int[] places)
    {
        for (var b = 0; b < rows.Length; b++)
            for (var i = 0; i < found; i++) rows[b][i] = (double)window[b].Data[places[i]] - window[b].Data[places[i] + step];
        AddProducts(rows, found, Differences);
        Pairs += found;
    }

    private static bool[] Valid(IReadOnlyList<Plane> window)
    {
        var valid = new bool[window[0].Data.Length];
        Array.Fill(valid, true);
        foreach (var band in window)
            for (var i = 0; i < valid.Length; i++) valid[i] &= float.IsFinite(band.Data[i]);
        return valid;
    }

    /// <summary>Places of a row that have data, and whose neighbour so many places on has data too.</summary>
    private static int Places(bool[] valid, int from, int count, int step, int[] places)
    {
        var found = 0;
        for (var i = from; i < from + count; i++)
            if (valid[i] && valid[i + step]) places[found++] = i;
        return found;
    }

    private static void AddProducts(double[][] rows, int count, double[,] sums)
    {
        for (var a = 0; a < rows.Length; a++)
            for (var b = a; b < rows.Length; b++) sums[a, b] += Dot(rows[a].AsSpan(0, count), rows[b].AsSpan(0, count));
    }

    /// <summary>Four running sums, whatever the processor: wider registers would add in another order and give other last digits.</summary>
    private static double Dot(ReadOnlySpan<double> a, ReadOnlySpan<double> b)
    {
        var sums = Vector256<double>.Zero;
        var i = 0;
        for (; i + 4 <= a.Length; i += 4) sums += Vector256.Create(a[i..]) * Vector256.Create(b[i..]);
        var sum = sums[0] + sums[1] + (sums[2] + sums[3]);
        for (; i < a.Length; i++) sum += a[i] * b[i];
        return sum;
    }
}
