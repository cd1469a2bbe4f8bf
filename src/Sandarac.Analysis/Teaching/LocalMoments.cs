using System.Numerics.Tensors;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Teaching;

/// <summary>
/// Mean, standard deviation and steepness of a band about each place under a Gaussian window (normalised convolution: Knutsson and Westin, CVPR 1993, 515, from memory;
/// places without data weigh nothing).
/// </summary>
/// <remarks>
/// Wide windows are computed on means of squares of pixels, so that the cost does not grow with the window; the squares lie on the image's own grid, so
/// that a tile gives the same numbers as the whole. Means of squares of values go along, so that texture finer than the squares counts in the deviation.
/// In between, linear.
/// </remarks>
internal sealed class LocalMoments
{
    /// <summary>The window's standard deviation in squares is between this and twice as much.</summary>
    private const double FinestSigma = 1;

    private readonly Plane[] _maps;
    private readonly int _side;
    private readonly (int X, int Y) _first;

    private LocalMoments(Plane[] maps, int side, (int, int) first) => (_maps, _side, _first) = (maps, side, first);

    /// <summary>Numbers at each place.</summary>
    public const int Count = 3;

    /// <summary>Pixels needed around a place.</summary>
    /// <param name="sigma">Standard deviation of the window, pixels.</param>
    public static int Halo(double sigma) => (Radius(sigma) + 3) * Side(sigma);

    /// <summary>Computes the moments of a window of the image.</summary>
    /// <param name="window">One band.</param>
    /// <param name="left">The window's first column in the image.</param>
    /// <param name="top">Its first row.</param>
    /// <param name="sigma">Standard deviation of the Gaussian, pixels.</param>
    /// <param name="mmPerPixel">Size of a pixel.</param>
    public static LocalMoments Of(Plane window, int left, int top, double sigma, double mmPerPixel)
    {
        var side = Side(sigma);
        var (x, y) = ((side - left % side) % side, (side - top % side) % side);
        var squares = Squares.Of(window, x, y, side);
        var kernel = Kernel(sigma);
        foreach (var sums in (double[][])[squares.Weight, squares.Sum, squares.SumOfSquares]) Blur(sums, squares.Width, squares.Height, kernel);
        return new LocalMoments(Maps(squares, side * mmPerPixel), side, (left + x, top + y));
    }

    /// <summary>Writes the moments of a run of pixels: mean, deviation, steepness per mm, each <paramref name="stride"/> apart.</summary>
    /// <param name="x">First column in the image.</param>
    /// <param name="y">Row in the image.</param>
    /// <param name="count">Pixels.</param>
    /// <param name="target">Where the means begin.</param>
    /// <param name="stride">Distance between the three.</param>
    public void Fill(int x, int y, int count, Span<float> target, int stride)
    {
        var (row, v) = Between(y, _first.Y, _maps[0].Height);
        var below = Math.Min(row + 1, _maps[0].Height - 1);
        for (var m = 0; m < Count; m++) Fill(x, _maps[m].Row(row), _maps[m].Row(below), v, target.Slice(m * stride, count));
    }

    private void Fill(int x, ReadOnlySpan<float> upper, ReadOnlySpan<float> lower, float v, Span<float> target)
    {
        // A step of one pixel is two halves, at most one square: no division for each.
        var (last, whole, halves) = (upper.Length - 1, 2 * _side, 2 * (x - _first.X) + 1 - _side);
        var index = (int)Math.Floor(halves / (double)whole);
        for (var i = 0; i < target.Length; i++, halves += 2)
        {
            if (halves - index * whole >= whole) index++;
            var (at, u) = index < 0 ? (0, 0f) : index >= last ? (last, 0f) : (index, (float)(halves - index * whole) / whole);
            target[i] = u == 0 && v == 0 ? upper[at] : Linear(upper, lower, at, Math.Min(at + 1, last), u, v);
        }
    }

    private static float Linear(ReadOnlySpan<float> upper, ReadOnlySpan<float> lower, int i, int j, float u, float v) =>
        (1 - v) * ((1 - u) * upper[i] + u * upper[j]) + v * ((1 - u) * lower[i] + u * lower[j]);

    /// <summary>In whole numbers, so that the window's origin leaves no trace.</summary>
    private (int Index, float Share) Between(int pixel, int first, int count)
    {
        var halves = Math.Clamp(2 * (pixel - first) + 1 - _side, 0, 2 * _side * (count - 1));
        var index = halves / (2 * _side);
        return (index, (float)(halves - index * 2 * _side) / (2 * _side));
    }

    private static int Side(double sigma) => Math.Max(1, (int)(sigma / FinestSigma));

    /// <summary>In squares: a square's own width is part of the window (variances add).</summary>
    private static double Sigma(double sigma)
    {
        var side = Side(sigma);
        return Math.Sqrt(sigma * sigma - (side * side - 1) / 12.0) / side;
    }

    private static int Radius(double sigma) => (int)Math.Ceiling(3 * Sigma(sigma));

    private static double[] Kernel(double sigma)
    {
        var (radius, s) = (Radius(sigma), Sigma(sigma));
        double[] kernel = [.. Enumerable.Range(-radius, 2 * radius + 1).Select(i => Math.Exp(-i * i / (2 * s * s)))];
        var sum = kernel.Sum();
        return [.. kernel.Select(k => k / sum)];
    }

    /// <summary>Along rows, then along columns; nothing lies beyond the border.</summary>
    private static void Blur(double[] sums, int width, int height, double[] kernel)
    {
        var radius = kernel.Length / 2;
        var (across, row) = (new double[sums.Length], new double[width + 2 * radius]);
        for (var y = 0; y < height; y++)
        {
            sums.AsSpan(y * width, width).CopyTo(row.AsSpan(radius));
            var to = across.AsSpan(y * width, width);
            for (var k = 0; k < kernel.Length; k++) TensorPrimitives.MultiplyAdd(row.AsSpan(k, width), kernel[k], to, to);
        }
        Array.Clear(sums);
        for (var y = 0; y < height; y++)
            for (var k = Math.Max(0, radius - y); k < Math.Min(kernel.Length, height + radius - y); k++)
                TensorPrimitives.MultiplyAdd(across.AsSpan((y + k - radius) * width, width), kernel[k], sums.AsSpan(y * width, width), sums.AsSpan(y * width, width));
    }

    private static Plane[] Maps(Squares squares, double mmPerSquare)
    {
        var (w, h) = (squares.Width, squares.Height);
        var (mean, deviation, steepness) = (new Plane(w, h), new Plane(w, h), new Plane(w, h));
        for (var i = 0; i < squares.Weight.Length; i++)
        {
            var (weight, m) = (squares.Weight[i], squares.Sum[i] / squares.Weight[i]);
            if (!(weight > 1e-9)) m = double.NaN;
            mean.Data[i] = (float)m;
            deviation.Data[i] = (float)Math.Sqrt(Math.Max(0, squares.SumOfSquares[i] / weight - m * m));
        }
        for (var y = 0; y < h; y++)
        {
            var (y0, y1) = (Math.Max(0, y - 1), Math.Min(h - 1, y + 1));
            Steepness(mean.Row(y0), mean.Row(y), mean.Row(y1), Math.Max(1, y1 - y0), mmPerSquare, steepness.Row(y));
        }
        return [mean, deviation, steepness];
    }

    private static void Steepness(ReadOnlySpan<float> above, ReadOnlySpan<float> row, ReadOnlySpan<float> below, int rows, double mmPerSquare, Span<float> target)
    {
        for (var x = 0; x < target.Length; x++)
        {
            var (x0, x1) = (Math.Max(0, x - 1), Math.Min(row.Length - 1, x + 1));
            var (dx, dy) = ((row[x1] - row[x0]) / Math.Max(1, x1 - x0), (below[x] - above[x]) / rows);
            target[x] = (float)(Math.Sqrt((double)dx * dx + (double)dy * dy) / mmPerSquare);
        }
    }

    /// <summary>Sums over squares of pixels, over their number.</summary>
    private sealed record Squares(int Width, int Height, double[] Weight, double[] Sum, double[] SumOfSquares)
    {
        public static Squares Of(Plane window, int left, int top, int side)
        {
            var (width, height) = (Math.Max(1, (window.Width - left + side - 1) / side), Math.Max(1, (window.Height - top + side - 1) / side));
            var squares = new Squares(width, height, new double[width * height], new double[width * height], new double[width * height]);
            for (var y = top; y < window.Height; y++)
            {
                var row = window.Row(y);
                var (i, inSquare) = ((y - top) / side * width, 0);
                for (var x = left; x < row.Length; x++)
                {
                    var value = (double)row[x];
                    if (double.IsFinite(value)) squares.Add(i, value);
                    if (++inSquare == side) (i, inSquare) = (i + 1, 0);
                }
            }
            return squares;
        }

        private void Add(int i, double value)
        {
            Weight[i]++;
            Sum[i] += value;
            SumOfSquares[i] += value * value;
        }
    }
}
