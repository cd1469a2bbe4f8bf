namespace Sandarac.Analysis.Sections;

/// <summary>Running sums down each profile of what its pixels show, so that the look of any layer is told without going through its pixels again.</summary>
internal sealed class LookSums
{
    /// <summary>Every so many-th column of a bundle is enough for a mean.</summary>
    private const int Every = 2;

    private readonly int _channels, _rows;
    private readonly int[] _bands;

    /// <summary>By profile the sums above each row: pixels, channels and light, and their squares.</summary>
    private readonly double[][] _above;

    private LookSums(int channels, int[] bands, int rows, double[][] above) => (_channels, _bands, _rows, _above) = (channels, bands, rows, above);

    private int Width => 1 + 2 * (_channels + _bands.Sum());

    /// <summary>Sums what lies in the profiles' rows that are known.</summary>
    public static LookSums Of(Micrographs images, StrataFrame frame, Profiles profiles)
    {
        var sums = new LookSums(images.Channels.Count, [.. images.Linear.Select(l => l.Length)], profiles.Rows, new double[profiles.Count][]);
        float[][] light = [.. images.Linear.SelectMany(m => m).Select(b => b.Data)];
        Parallel.For(0, profiles.Count, profiles.Workers, p => sums._above[p] = sums.Down(images, light, frame, profiles, p));
        return sums;
    }

    /// <summary>Those of some of the profiles, from one to another.</summary>
    public LookSums Part(int first, int last) => new(_channels, _bands, _rows, _above[first..(last + 1)]);

    /// <summary>What lies between two edges looks like this, a row less on either side where there are enough: those are mixed.</summary>
    public LayerLook Of(int[] from, int[] to)
    {
        var total = new double[Width];
        for (var p = 0; p < _above.Length; p++)
        {
            var (a, b) = to[p] - from[p] >= 5 ? (from[p] + 1, to[p] - 1) : (from[p], to[p]);
            if (b <= a) continue;
            for (var c = 0; c < Width; c++) total[c] += _above[p][b * Width + c] - _above[p][a * Width + c];
        }
        var count = Math.Max(1, total[0]);
        var half = Width / 2;
        double[] mean = [.. total[1..(1 + half)].Select(s => s / count)];
        double[] variance = [.. mean.Select((m, i) => Math.Max(0, total[1 + half + i] / count - m * m))];
        return new LayerLook(mean[.._channels], [.. variance[.._channels].Select(Math.Sqrt)], ByImage(mean[_channels..]), ByImage(variance[_channels..]));
    }

    private double[][] ByImage(double[] bands) => [.. _bands.Select((b, m) => bands[_bands[..m].Sum()..][..b])];

    private double[] Down(Micrographs images, float[][] light, StrataFrame frame, Profiles profiles, int p)
    {
        var width = Width;
        var above = new double[(_rows + 1) * width];
        for (var r = 0; r < _rows; r++)
        {
            var sum = above.AsSpan((r + 1) * width, width);
            above.AsSpan(r * width, width).CopyTo(sum);
            if (!profiles.Known[p * _rows + r]) continue;
            for (var i = 0; i < Profiles.Bundle; i += Every)
            {
                var q = frame.ToImage(profiles.Along[p] - Profiles.Bundle / 2.0 + i + 0.5, r + 0.5);
                var (x, y) = ((int)Math.Floor(q.X), (int)Math.Floor(q.Y));
                if (x < 0 || y < 0 || x >= images.Width || y >= images.Height || !images.IsShown(y * images.Width + x)) continue;
                Add(sum, images, light, y * images.Width + x);
            }
        }
        return above;
    }

    private void Add(Span<double> sum, Micrographs images, float[][] light, int at)
    {
        var half = Width / 2;
        sum[0]++;
        for (var i = 0; i < half; i++)
        {
            double value = i < _channels ? images.Channels[i][at] : light[i - _channels][at];
            (sum[1 + i], sum[1 + half + i]) = (sum[1 + i] + value, sum[1 + half + i] + value * value);
        }
    }
}
