using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Sections;

/// <summary>A frame turned so that the strata lie across it: u along them, v across, both in pixels of the images it was made for, (0, 0) its upper left corner.</summary>
/// <param name="Width">Its extent along the strata.</param>
/// <param name="Height">Its extent across.</param>
/// <param name="Degrees">Its turn against the image, clockwise as seen.</param>
/// <param name="ImageWidth">The image's width.</param>
/// <param name="ImageHeight">The image's height.</param>
internal sealed record StrataFrame(int Width, int Height, double Degrees, double ImageWidth, double ImageHeight)
{
    /// <summary>Size at which the strata's direction is looked for, and the steps of the search, degrees.</summary>
    private const int SearchSide = 256;

    private const double CoarseStep = 3, FineStep = 0.5;

    private readonly double _cos = Math.Cos(Degrees * Math.PI / 180), _sin = Math.Sin(Degrees * Math.PI / 180);

    /// <summary>A frame that holds the whole of an image.</summary>
    public static StrataFrame Around(double width, double height, double degrees)
    {
        var (c, s) = (Math.Abs(Math.Cos(degrees * Math.PI / 180)), Math.Abs(Math.Sin(degrees * Math.PI / 180)));
        return new StrataFrame((int)Math.Ceiling(width * c + height * s), (int)Math.Ceiling(height * c + width * s), degrees, width, height);
    }

    /// <summary>The same frame for the images in another size.</summary>
    public StrataFrame Enlarged(double width, double height) => Around(width, height, Degrees);

    /// <summary>A place of the frame in the image.</summary>
    public Point2 ToImage(double u, double v)
    {
        var (x, y) = (u - Width / 2.0, v - Height / 2.0);
        return new Point2(ImageWidth / 2 + x * _cos - y * _sin, ImageHeight / 2 + x * _sin + y * _cos);
    }

    /// <summary>A place of the image in the frame.</summary>
    public Point2 FromImage(Point2 p)
    {
        var (x, y) = (p.X - ImageWidth / 2, p.Y - ImageHeight / 2);
        return new Point2(Width / 2.0 + x * _cos + y * _sin, Height / 2.0 - x * _sin + y * _cos);
    }

    /// <summary>The direction in which the means of rows differ most from one to the next, as in a sinogram whose one line is sharpest.</summary>
    public static StrataFrame Find(Micrographs images, ParallelOptions workers)
    {
        var factor = Math.Max(1, (Math.Max(images.Width, images.Height) + SearchSide - 1) / SearchSide);
        var (w, h) = (images.Width / factor, images.Height / factor);
        float[][] small = [.. images.Everywhere.Select(c => Reduce(c, images.Width, factor, w, h))];
        var coarse = Best(small, w, h, Enumerable.Range(-29, 60).Select(i => i * CoarseStep), workers);
        var fine = Best(small, w, h, Enumerable.Range(-6, 13).Select(i => coarse + i * FineStep), workers);
        return Around(images.Width, images.Height, fine);
    }

    private static double Best(float[][] channels, int w, int h, IEnumerable<double> angles, ParallelOptions workers)
    {
        double[] tried = [.. angles];
        double[] steepness = new double[tried.Length];
        Parallel.For(0, tried.Length, workers, i => steepness[i] = Steepness(channels, Around(w, h, tried[i]), w, h));
        return tried[Array.IndexOf(steepness, steepness.Max())];
    }

    private static double Steepness(float[][] channels, StrataFrame frame, int w, int h)
    {
        var (sums, counts) = (new double[channels.Length][], new int[frame.Height]);
        for (var c = 0; c < channels.Length; c++) sums[c] = new double[frame.Height];
        for (var y = 0; y < h; y++)
            for (var x = 0; x < w; x++)
            {
                var v = Math.Clamp((int)frame.FromImage(new Point2(x + 0.5, y + 0.5)).Y, 0, frame.Height - 1);
                counts[v]++;
                for (var c = 0; c < channels.Length; c++) sums[c][v] += channels[c][y * w + x];
            }
        var sum = 0.0;
        var enough = 0.3 * Math.Min(w, h);
        for (var v = 2; v < frame.Height; v++)
        {
            if (counts[v] < enough || counts[v - 2] < enough) continue;
            for (var c = 0; c < channels.Length; c++) sum += Math.Pow(sums[c][v] / counts[v] - sums[c][v - 2] / counts[v - 2], 2);
        }
        return sum;
    }

    private static float[] Reduce(float[] from, int width, int factor, int w, int h)
    {
        var to = new float[w * h];
        for (var y = 0; y < h * factor; y++)
            for (var x = 0; x < w * factor; x++) to[y / factor * w + x / factor] += from[y * width + x] / (factor * factor);
        return to;
    }
}
