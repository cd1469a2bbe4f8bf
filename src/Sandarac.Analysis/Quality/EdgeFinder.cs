using Sandarac.Analysis.Numbers;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Quality;

/// <summary>Finds strong, straight, slightly slanted edges with even ground on both sides, and measures how they are rendered.</summary>
internal static class EdgeFinder
{
    /// <summary>Rows along the edge that make one measurement.</summary>
    public const int Length = 32;

    /// <summary>Least contrast over the local noise: below it the centroids that locate the edge scatter by more than the limit on straightness.</summary>
    private const double LeastContrastToNoise = 20;

    /// <summary>Least contrast over the brighter side.</summary>
    private const double LeastContrast = 0.1;

    /// <summary>Most scatter of the edge's positions around a straight line, pixels: scatter s adds s^2 to the variance of the blur.</summary>
    private const double MostScatter = 0.15;

    /// <summary>Most unevenness of the ground on either side, as a share of the contrast.</summary>
    private const double MostTexture = 0.08;

    /// <summary>The edges in a tile of linear light with a halo of <see cref="EdgeResponse.Reach"/> + <see cref="Length"/>; each block of 32 pixels is searched once for an upright and once for a level edge.</summary>
    public static List<EdgeResponse> Find(Plane light, int offsetX, int offsetY, int width, int height)
    {
        var found = new List<EdgeResponse>();
        var turned = Transpose(light);
        for (var y = offsetY; y + Length <= offsetY + height; y += Length)
            for (var x = offsetX; x + Length <= offsetX + width; x += Length)
            {
                if (Upright(light, x, y) is { } upright) found.Add(upright);
                if (Upright(turned, y, x) is { } level) found.Add(level);
            }
        return found;
    }

    private static EdgeResponse? Upright(Plane p, int left, int top)
    {
        if (Locate(p, left, top) is not { } line) return null;
        // An edge that leaves the block is another block's.
        var middle = line.At(top + Length / 2.0);
        if (middle < left || middle >= left + Length || Math.Abs(line.Slope) < 1.0 / Length || Math.Abs(line.Slope) > 0.5) return null;
        return Profile(p, line, top) is { } profile && IsClean(profile) ? EdgeResponse.Of(profile) : null;
    }

    /// <summary>A line x = intercept + slope y through the edge's position in each row: the centroid of the squared derivative, in a window that closes in on the line.</summary>
    private static EdgeLine? Locate(Plane p, int left, int top)
    {
        if (!HasContrast(p, left, top)) return null;
        EdgeLine? line = null;
        foreach (var reach in (int[])[Length / 2 + 4, 12, 8])
        {
            var points = new List<(double X, double Y)>();
            for (var y = top; y < top + Length; y++)
                if (Centroid(p, y, line?.At(y + 0.5) ?? left + Length / 2.0, reach) is { } x) points.Add((x, y + 0.5));
            if (points.Count < Length) return null;
            line = EdgeLine.Fit(points);
            if (line.Scatter > (reach == 8 ? MostScatter : 4)) return null;
        }
        return line;
    }

    /// <summary>Compares the outer quarters of a block: a quick no for blocks without an upright edge.</summary>
    private static bool HasContrast(Plane p, int left, int top)
    {
        double a = 0, b = 0;
        for (var y = top; y < top + Length; y += 4)
            for (var x = 0; x < Length / 4; x++)
            {
                a += p[left + x, y];
                b += p[left + Length - 1 - x, y];
            }
        return Math.Abs(a - b) >= LeastContrast / 2 * Math.Max(a, b) && a != b;
    }

    private static double? Centroid(Plane p, int y, double around, int reach)
    {
        var (from, to) = ((int)Math.Floor(around) - reach, (int)Math.Floor(around) + reach);
        if (from < 1 || to > p.Width - 2) return null;
        double sum = 0, moment = 0;
        for (var x = from; x <= to; x++)
        {
            double d = p[x + 1, y] - p[x - 1, y];
            sum += d * d;
            moment += d * d * (x + 0.5);
        }
        return sum > 0 ? moment / sum : null;
    }

    /// <summary>Mean light by distance from the line, in quarters of a pixel; null when a bin stays empty.</summary>
    private static double[]? Profile(Plane p, EdgeLine line, int top)
    {
        const int n = 2 * EdgeResponse.Reach * EdgeResponse.Oversampling;
        var (sums, counts) = (new double[n], new int[n]);
        for (var y = top; y < top + Length; y++)
        {
            var at = line.At(y + 0.5);
            var reach = EdgeResponse.Reach / line.Cosine;
            for (var x = Math.Max(0, (int)(at - reach) - 1); x <= Math.Min(p.Width - 1, (int)(at + reach) + 1); x++)
            {
                var bin = (int)Math.Floor(((x + 0.5 - at) * line.Cosine + EdgeResponse.Reach) * EdgeResponse.Oversampling);
                if (bin < 0 || bin >= n) continue;
                sums[bin] += p[x, y];
                counts[bin]++;
            }
        }
        if (counts.Any(c => c == 0)) return null;
        for (var i = 0; i < n; i++) sums[i] /= counts[i];
        return sums;
    }

    private static bool IsClean(double[] profile)
    {
        var side = profile.Length / 4;
        var (dark, bright) = (profile[..side], profile[^side..]);
        var contrast = Math.Abs(bright.Average() - dark.Average());
        return contrast >= LeastContrast * Math.Max(bright.Average(), dark.Average())
            && Math.Max(Spread(dark), Spread(bright)) <= MostTexture * contrast
            && contrast >= LeastContrastToNoise * Math.Min(BinNoise(dark), BinNoise(bright));
    }

    private static double Spread(double[] values) => values.Max() - values.Min();

    /// <summary>Noise of a pixel from differences between neighbouring bins, each the mean of about 8 pixels.</summary>
    private static double BinNoise(double[] bins) => Robust.Median(bins.Zip(bins.Skip(1), (a, b) => Math.Abs(b - a))) / 0.6745 / Math.Sqrt(2) * Math.Sqrt(Length / EdgeResponse.Oversampling);

    private static Plane Transpose(Plane p)
    {
        var t = new Plane(p.Height, p.Width);
        for (var y = 0; y < p.Height; y++)
            for (var x = 0; x < p.Width; x++) t[y, x] = p[x, y];
        return t;
    }
}
