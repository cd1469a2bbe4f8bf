namespace Sandarac.Analysis.Spectra;

/// <summary>
/// The background under peaks by statistics-sensitive non-linear iterative clipping: C. G. Ryan et al., Nucl. Instrum. Methods B 34 (1988) 396 (the transform LLS, log log square root), with the window growing smaller as in
/// M. Morhac et al., Nucl. Instrum. Methods A 401 (1997) 113. Both from memory.
/// </summary>
internal static class Snip
{
    /// <summary>The background of each channel.</summary>
    /// <param name="counts">Counts, 0 or more.</param>
    /// <param name="halfWidth">Widest half-window at a channel, channels: what is narrower than twice this is taken for a peak.</param>
    public static double[] Background(double[] counts, Func<int, int> halfWidth)
    {
        var v = counts.Select(Transformed).ToArray();
        int[] widths = [.. Enumerable.Range(0, v.Length).Select(i => Math.Min(halfWidth(i), Math.Min(i, v.Length - 1 - i)))];
        for (var p = widths.Max(); p > 0; p--)
        {
            var before = (double[])v.Clone();
            for (var i = p; i < v.Length - p; i++)
                if (p <= widths[i]) v[i] = Math.Min(before[i], (before[i - p] + before[i + p]) / 2);
        }
        return [.. v.Select(Restored)];
    }

    /// <summary>Means over a window, so that the clipping follows the middle of the noise and not its lower edge.</summary>
    public static double[] Smoothed(double[] counts, Func<int, int> halfWidth)
    {
        var sums = new double[counts.Length + 1];
        for (var i = 0; i < counts.Length; i++) sums[i + 1] = sums[i] + counts[i];
        return [.. Enumerable.Range(0, counts.Length).Select(i => (Half: Math.Min(halfWidth(i), Math.Min(i, counts.Length - 1 - i)), i)).Select(w => (sums[w.i + w.Half + 1] - sums[w.i - w.Half]) / (2 * w.Half + 1))];
    }

    private static double Transformed(double y) => Math.Log(Math.Log(Math.Sqrt(y + 1) + 1) + 1);

    private static double Restored(double v)
    {
        var root = Math.Exp(Math.Exp(v) - 1) - 1;
        return Math.Max(0, root * root - 1);
    }
}
