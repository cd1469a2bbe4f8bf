using Sandarac.Analysis.Numbers;

namespace Sandarac.Analysis.Sections.Particles;

/// <summary>Tells grains from what they lie in.</summary>
internal static class GrainContrast
{
    private const int Bins = 256;

    /// <summary>A rim's surroundings that are filled by more than half by so much, or by less, have another grain in them.</summary>
    private const double Other = 0.15;

    private static readonly (int X, int Y)[] Forward = [(1, 0), (0, 1)];

    /// <summary>Pixels on either side of a rim that are looked at, and the side of that square.</summary>
    private const int Around = 3, Box = 2 * Around + 1;

    /// <summary>Grains no farther from the medium's colour than this, CIELAB, are none.</summary>
    private const double LeastContrast = 4;

    /// <summary>Pixels of an area that are grains; null when nothing stands out. First the area's pixels in two along the axis in which they differ most; the one part
    /// that bulges into the other is the grains, the other the medium. Then all that lies far enough from the medium's colour, lighter or darker.</summary>
    /// <param name="channels">CIELAB or lightness, slightly smoothed.</param>
    /// <param name="area">The area.</param>
    /// <param name="width">Columns.</param>
    public static bool[]? Grains(float[][] channels, bool[] area, int width)
    {
        int[] inside = [.. Enumerable.Range(0, area.Length).Where(i => area[i])];
        if (inside.Length < 100) return null;
        var axis = Axis(channels, inside);
        var along = new float[area.Length];
        foreach (var i in inside)
            for (var c = 0; c < channels.Length; c++) along[i] += axis[c] * channels[c][i];
        var split = Threshold(along, inside);
        var high = new bool[area.Length];
        foreach (var i in inside) high[i] = along[i] > split;
        var mediumIsHigh = Convexity(high, area, width) < 0;
        int[] medium = [.. inside.Where(i => high[i] == mediumIsHigh)];
        if (medium.Length == 0 || medium.Length == inside.Length) return null;
        double[] colour = [.. channels.Select(c => Robust.Median(Sparse(medium).Select(i => (double)c[i])))];
        var away = new float[area.Length];
        foreach (var i in inside)
        {
            var sum = 0.0;
            for (var c = 0; c < colour.Length; c++) sum += (channels[c][i] - colour[c]) * (channels[c][i] - colour[c]);
            away[i] = (float)Math.Sqrt(sum);
        }
        var least = Threshold(away, inside);
        if (least < LeastContrast) return null;
        var grains = new bool[area.Length];
        foreach (var i in inside) grains[i] = away[i] > least;
        return grains;
    }

    /// <summary>Otsu's threshold (IEEE Trans. Systems, Man and Cybernetics 9 (1979) 62): the middle between the means of the two classes that it makes.</summary>
    internal static float Threshold(float[] values, int[] inside)
    {
        var (low, high) = (float.PositiveInfinity, float.NegativeInfinity);
        foreach (var i in inside) (low, high) = (Math.Min(low, values[i]), Math.Max(high, values[i]));
        if (!(high > low)) return low;
        var counts = new long[Bins];
        foreach (var i in inside) counts[Math.Min(Bins - 1, (int)((values[i] - low) / (high - low) * Bins))]++;
        double total = inside.Length, all = counts.Select((c, b) => (double)c * b).Sum();
        var (best, mean0, mean1, n0, sum0) = (-1.0, 0.0, 0.0, 0.0, 0.0);
        for (var b = 0; b < Bins - 1; b++)
        {
            (n0, sum0) = (n0 + counts[b], sum0 + (double)counts[b] * b);
            if (n0 == 0 || n0 == total) continue;
            var (m0, m1) = (sum0 / n0, (all - sum0) / (total - n0));
            if (n0 * (total - n0) * (m1 - m0) * (m1 - m0) is var between && between > best) (best, mean0, mean1) = (between, m0, m1);
        }
        return low + (float)(((mean0 + mean1) / 2 + 0.5) / Bins) * (high - low);
    }

    /// <summary>By how much less than half of what surrounds the rim of a mask, within an area, the mask fills in the mean: positive where it bulges outward.
    /// Where another grain is near, nothing is said.</summary>
    internal static double Convexity(bool[] mask, bool[] area, int width)
    {
        var height = mask.Length / width;
        var (set, known) = (Sums(mask, width, height), Sums(area, width, height));
        var (sum, count, half) = (0L, 0L, Box * Box);
        void Tally(int x, int y, int dx, int dy)
        {
            if (mask[y * width + x] == mask[(y + dy) * width + x + dx] || Inside(known, width, x, y) < half || Inside(known, width, x + dx, y + dy) < half) return;
            var filled = Inside(set, width, x, y) + Inside(set, width, x + dx, y + dy);
            if (Math.Abs(filled - half) <= 2 * Other * half) (sum, count) = (sum + half - filled, count + 1);
        }

        for (var y = Around; y < height - Around - 1; y++)
            for (var x = Around; x < width - Around - 1; x++)
            {
                Tally(x, y, 1, 0);
                Tally(x, y, 0, 1);
            }
        return count == 0 ? 0 : sum / (2.0 * half * count);
    }

    /// <summary>Sums over all that lies above and left of each pixel.</summary>
    private static int[] Sums(bool[] mask, int width, int height)
    {
        var sums = new int[(width + 1) * (height + 1)];
        for (var y = 0; y < height; y++)
        {
            var row = 0;
            for (var x = 0; x < width; x++) sums[(y + 1) * (width + 1) + x + 1] = sums[y * (width + 1) + x + 1] + (row += mask[y * width + x] ? 1 : 0);
        }
        return sums;
    }

    private static int Inside(int[] sums, int width, int x, int y)
    {
        var (a, b, n) = ((y - Around) * (width + 1) + x - Around, (y + Around + 1) * (width + 1) + x - Around, Box);
        return sums[b + n] - sums[b] - sums[a + n] + sums[a];
    }

    /// <summary>First principal axis, by repeated multiplication.</summary>
    private static float[] Axis(float[][] channels, int[] inside)
    {
        var n = channels.Length;
        if (n == 1) return [1];
        double[] mean = [.. channels.Select(c => inside.Average(i => (double)c[i]))];
        var covariance = new double[n, n];
        foreach (var i in inside)
            for (var a = 0; a < n; a++)
                for (var b = 0; b < n; b++) covariance[a, b] += (channels[a][i] - mean[a]) * (channels[b][i] - mean[b]);
        double[] axis = [.. Enumerable.Range(0, n).Select(c => c == 0 ? 1.0 : 0.3)];
        for (var round = 0; round < 60; round++)
        {
            double[] next = [.. Enumerable.Range(0, n).Select(a => Enumerable.Range(0, n).Sum(b => covariance[a, b] * axis[b]))];
            var length = Math.Sqrt(next.Sum(v => v * v));
            if (length > 0) axis = [.. next.Select(v => v / length)];
        }
        return [.. axis.Select(a => (float)a)];
    }

    private static IEnumerable<int> Sparse(int[] places) => places.Where((_, k) => k % Math.Max(1, places.Length / 20_000) == 0);
}
