using MathNet.Numerics.Statistics;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Quality;

/// <summary>What is gathered from a square block of one band.</summary>
/// <param name="X">Column of its middle, pixels.</param>
/// <param name="Y">Row of its middle.</param>
/// <param name="Mean">Mean value, counts.</param>
/// <param name="Least">Least value.</param>
/// <param name="Greatest">Greatest value.</param>
/// <param name="Noise">Robust noise, counts.</param>
/// <param name="Texture">Standard deviation of the means of 4 x 4 cells, counts: coarse texture, which the noise figure hardly sees.</param>
internal readonly record struct QualityBlock(double X, double Y, double Mean, double Least, double Greatest, double Noise, double Texture)
{
    /// <summary>Side of a block, pixels.</summary>
    public const int Size = 32;

    private const int Cell = 4;

    /// <summary>
    /// Standard deviation of the mask's response to noise of standard deviation 1: the root of the sum of its squared coefficients. The mask [1 -2 1; -2 4 -2; 1 -2 1] is the
    /// difference of two Laplacians and blind to brightness, slopes and straight edges along rows and columns
    /// (Immerkaer, Fast noise variance estimation, Computer Vision and Image Understanding 64 (1996) 300).
    /// </summary>
    private const double MaskNorm = 6;

    /// <summary>Median absolute value of a normal distribution with standard deviation 1 (Donoho and Johnstone, Biometrika 81 (1994) 425, use it so).</summary>
    private const double NormalMedian = 0.6744897501960817;

    /// <summary>Median absolute response of the mask over the noise's standard deviation.</summary>
    public const double ResponseToSigma = NormalMedian * MaskNorm;

    /// <summary>The full blocks of a tile whose pixels all have data.</summary>
    public static List<QualityBlock> Of(Plane plane, int left, int top)
    {
        var blocks = new List<QualityBlock>();
        for (var y = 0; y + Size <= plane.Height; y += Size)
            for (var x = 0; x + Size <= plane.Width; x += Size)
                if (Measure(plane, x, y) is { } b) blocks.Add(b with { X = left + x + Size / 2.0, Y = top + y + Size / 2.0 });
        return blocks;
    }

    private static QualityBlock? Measure(Plane p, int left, int top)
    {
        var (least, greatest, sum) = (double.PositiveInfinity, double.NegativeInfinity, 0.0);
        Span<double> cells = stackalloc double[Size / Cell * (Size / Cell)];
        for (var y = 0; y < Size; y++)
            for (var x = 0; x < Size; x++)
            {
                double v = p[left + x, top + y];
                if (!double.IsFinite(v)) return null;
                (least, greatest, sum) = (Math.Min(least, v), Math.Max(greatest, v), sum + v);
                cells[y / Cell * (Size / Cell) + x / Cell] += v / (Cell * Cell);
            }
        var mean = sum / (Size * Size);
        double spread = 0;
        foreach (var c in cells) spread += (c - mean) * (c - mean);
        return new QualityBlock(0, 0, mean, least, greatest, PixelNoise(p, left, top), Math.Sqrt(spread / cells.Length));
    }

    private static double PixelNoise(Plane p, int left, int top)
    {
        var responses = new float[(Size - 2) * (Size - 2)];
        var n = 0;
        for (var y = top + 1; y < top + Size - 1; y++)
            for (var x = left + 1; x < left + Size - 1; x++)
            {
                var corners = p[x - 1, y - 1] + p[x + 1, y - 1] + p[x - 1, y + 1] + p[x + 1, y + 1];
                var sides = p[x - 1, y] + p[x + 1, y] + p[x, y - 1] + p[x, y + 1];
                responses[n++] = Math.Abs(corners - 2 * sides + 4 * p[x, y]);
            }
        return ArrayStatistics.MedianInplace(responses) / ResponseToSigma;
    }
}
