using Sandarac.Analysis.Alignment.Pairs;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Alignment.Mosaics;

/// <summary>The border of a film or a scan that shows nothing: lines at its edges that are the same throughout.</summary>
internal static class TileBorder
{
    private const int LongSide = 1024;
    private const double MostBorder = 0.1;
    private const double Same = 0.02;

    /// <summary>The part of the image, in its own pixels, inside such a border.</summary>
    public static Box Inside(PairImage image)
    {
        var file = image.File;
        var level = 0;
        while (Math.Max(file.Levels[level].Width, file.Levels[level].Height) > LongSide && level < file.Levels.Count - 1) level++;
        var (w, h) = (file.Levels[level].Width, file.Levels[level].Height);
        var plane = file.ReadWindow(level, 0, 0, w, h)[0];
        var (low, high) = (plane.Data.Min(), plane.Data.Max());
        bool IsPlain(Func<int, float> at, int count)
        {
            double[] values = [.. Enumerable.Range(0, count).Select(i => (double)at(i))];
            var median = Numbers.Robust.Median(values);
            // At an end of the scale and nearly everywhere the same: a sky or a board is neither.
            return values.Count(v => Math.Abs(v - median) <= Same * (high - low)) >= 0.9 * count && (median - low <= 0.05 * (high - low) || high - median <= 0.05 * (high - low));
        }

        int Plain(int along, int across, Func<int, int, float> at)
        {
            var n = 0;
            while (n < MostBorder * across && IsPlain(i => at(i, n), along)) n++;
            return n == 0 ? 0 : n + 1;
        }

        var (left, right) = (Plain(h, w, (i, n) => plane[n, i]), Plain(h, w, (i, n) => plane[w - 1 - n, i]));
        var (top, bottom) = (Plain(w, h, (i, n) => plane[i, n]), Plain(w, h, (i, n) => plane[i, h - 1 - n]));
        var step = 1 << level;
        return new Box(left * step, top * step, file.Width - (left + right) * step, file.Height - (top + bottom) * step);
    }
}
