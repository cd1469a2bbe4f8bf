using Sandarac.Analysis.Numbers;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Quality;

/// <summary>Finds strong, straight, slightly slanted edges with even ground on both sides, and measures how they are rendered.</summary>
internal static class EdgeFinder
{
    /// <summary>Side of the blocks that are searched.</summary>
    public const int Block = 32;

    /// <summary>
    /// Rows along the edge that make one measurement, and rows that are averaged to locate it. A painting squared up with care has edges that drift by
    /// a few pixels over their whole length: only a long piece of them is seen in all places between two pixels.
    /// </summary>
    private static readonly (int Length, int Step)[] Pieces = [(Block, 1), (128, 4), (256, 8), (512, 16)];

    /// <summary>Pixels that an edge must drift sideways over the piece: less leaves some quarters of a pixel unseen.</summary>
    private const double LeastDrift = 0.8;

    /// <summary>Least contrast over the noise of what locates the edge: below it the centroids that locate the edge scatter by more than the limit on straightness.</summary>
    private const double LeastContrastToNoise = 20;

    /// <summary>Least contrast over the brighter side.</summary>
    private const double LeastContrast = 0.1;

    /// <summary>Most scatter of the edge's positions around a straight line, pixels: scatter s adds s^2 to the variance of the blur.</summary>
    private const double MostScatter = 0.15;

    /// <summary>Most unevenness of the ground on either side, as a share of the contrast.</summary>
    private const double MostTexture = 0.08;

    /// <summary>The edges in a tile of linear light with a halo of <see cref="EdgeResponse.Reach"/> + <see cref="Block"/>; each block is searched once for an upright and once for a level edge, by itself and along longer pieces of its column or row of blocks.</summary>
    public static List<EdgeResponse> Find(Plane light, int offsetX, int offsetY, int width, int height)
    {
        var found = new List<EdgeResponse>();
        var turned = Transpose(light);
        foreach (var (length, step) in Pieces)
        {
            void Search(Plane p, int left, int top, int width, int height)
            {
                for (var y = top; y + length <= top + height; y += length)
                    for (var x = left; x + Block <= left + width; x += Block)
                        if (Upright(p, x, y, length, step) is { } edge) found.Add(edge);
            }
            Search(light, offsetX, offsetY, width, height);
            Search(turned, offsetY, offsetX, height, width);
        }
        return found;
    }

    private static EdgeResponse? Upright(Plane p, int left, int top, int length, int step)
    {
        if (Locate(p, left, top, length, step) is not { } line) return null;
        // An edge that leaves the block is another block's; one that slants more is measured on a shorter piece.
        var middle = line.At(top + length / 2.0);
        var steepest = length == Block ? 0.5 : 2.0 / Block;
        if (middle < left || middle >= left + Block || Math.Abs(line.Slope) * length < LeastDrift || Math.Abs(line.Slope) > steepest) return null;
        return Profile(p, line, top, length) is { } profile && IsClean(profile, length, step) ? EdgeResponse.Of(profile) : null;
    }

    /// <summary>A line x = intercept + slope y through the edge's position in each step of rows: the centroid of the squared derivative, in a window that closes in on the line.</summary>
    private static EdgeLine? Locate(Plane p, int left, int top, int length, int step)
    {
        if (!HasContrast(p, left, top, length)) return null;
        EdgeLine? line = null;
        foreach (var reach in (int[])[Block / 2 + 4, 12, 8])
        {
            var points = new List<(double X, double Y)>();
            for (var y = top; y < top + length; y += step)
                if (Centroid(p, y, step, line?.At(y + step / 2.0) ?? left + Block / 2.0, reach) is { } x) points.Add((x, y + step / 2.0));
            if (points.Count < length / step) return null;
            line = EdgeLine.Fit(points);
            if (line.Scatter > (reach == 8 ? MostScatter : 4)) return null;
        }
        return line;
    }

    /// <summary>Compares the outer quarters of a block: a quick no for blocks without an upright edge.</summary>
    private static bool HasContrast(Plane p, int left, int top, int length)
    {
        double a = 0, b = 0;
        for (var y = top; y < top + length; y += length / 8)
            for (var x = 0; x < Block / 4; x++)
            {
                a += p[left + x, y];
                b += p[left + Block - 1 - x, y];
            }
        return Math.Abs(a - b) >= LeastContrast / 2 * Math.Max(a, b) && a != b;
    }

    private static double? Centroid(Plane p, int top, int rows, double around, int reach)
    {
        var (from, to) = ((int)Math.Floor(around) - reach, (int)Math.Floor(around) + reach);
        if (from < 1 || to > p.Width - 2) return null;
        double sum = 0, moment = 0;
        for (var x = from; x <= to; x++)
        {
            double d = 0;
            for (var y = top; y < top + rows; y++) d += p[x + 1, y] - p[x - 1, y];
            sum += d * d;
            moment += d * d * (x + 0.5);
        }
        return sum > 0 ? moment / sum : null;
    }

    /// <summary>Mean light by distance from the line, in quarters of a pixel; null when a bin stays empty.</summary>
    private static double[]? Profile(Plane p, EdgeLine line, int top, int length)
    {
        const int n = 2 * EdgeResponse.Reach * EdgeResponse.Oversampling;
        var (sums, counts) = (new double[n], new int[n]);
        for (var y = top; y < top + length; y++)
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

    private static bool IsClean(double[] profile, int length, int step)
    {
        var side = profile.Length / 4;
        var (dark, bright) = (profile[..side], profile[^side..]);
        var contrast = Math.Abs(bright.Average() - dark.Average());
        return contrast >= LeastContrast * Math.Max(bright.Average(), dark.Average())
            && Math.Max(Spread(dark), Spread(bright)) <= MostTexture * contrast
            && contrast >= LeastContrastToNoise / Math.Sqrt(step) * Math.Min(BinNoise(dark, length), BinNoise(bright, length));
    }

    private static double Spread(double[] values) => values.Max() - values.Min();

    /// <summary>Noise of a pixel from differences between neighbouring bins, each the mean of about a quarter of the rows' pixels.</summary>
    private static double BinNoise(double[] bins, int length) => Robust.Median(bins.Zip(bins.Skip(1), (a, b) => Math.Abs(b - a))) / 0.6745 / Math.Sqrt(2) * Math.Sqrt(length / EdgeResponse.Oversampling);

    private static Plane Transpose(Plane p)
    {
        var t = new Plane(p.Height, p.Width);
        for (var y = 0; y < p.Height; y++)
            for (var x = 0; x < p.Width; x++) t[y, x] = p[x, y];
        return t;
    }
}
