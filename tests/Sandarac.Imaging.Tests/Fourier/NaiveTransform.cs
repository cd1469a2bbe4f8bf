using System.Numerics;
using Sandarac.Imaging.Fourier;

namespace Sandarac.Imaging.Tests.Fourier;

/// <summary>The transform written down as its definition, in double; slow and obvious.</summary>
internal static class NaiveTransform
{
    public static Complex[,] Of(Plane plane)
    {
        var (w, h) = (plane.Width, plane.Height);
        var rows = new Complex[h, w];
        for (var y = 0; y < h; y++)
            for (var u = 0; u < w; u++)
                for (var x = 0; x < w; x++) rows[y, u] += plane[x, y] * Wave(u * x, w);
        var result = new Complex[h, w];
        for (var u = 0; u < w; u++)
            for (var v = 0; v < h; v++)
                for (var y = 0; y < h; y++) result[v, u] += rows[y, u] * Wave(v * y, h);
        return result;
    }

    private static Complex Wave(int k, int n) => Complex.FromPolarCoordinates(1, -2 * Math.PI * (k % n) / n);
}

/// <summary>How far a float32 transform may be off.</summary>
internal static class Error
{
    /// <summary>
    /// Bound on |error| / |result|, both as root of the sum of squares, from N. J. Higham, "Accuracy and Stability of Numerical Algorithms"
    /// (2nd ed., 2002), theorem 24.2: log2(n) times eta, eta = u + gamma4 (sqrt 2 + u), about 6.7 u, u = 2^-24. It is proved for
    /// radix 2; for the other radices and Bluestein's two transforms of at most 4 n samples with three products we use the same rule for what they
    /// add up to (our own extension, no source).
    /// </summary>
    public static double Bound(int width, int height) => 6.7 * Math.Pow(2, -24) * (Steps(width) + Steps(height) + 1);

    private static double Steps(int n) => FastLength.IsFast(n) ? Math.Max(1, Math.Log2(n)) : 2 * Math.Log2(4.0 * n) + 3;

    /// <summary>|a - b| / |b| over all values.</summary>
    public static double Relative(IEnumerable<Complex> a, IEnumerable<Complex> b)
    {
        var (error, size) = (0.0, 0.0);
        foreach (var (x, y) in a.Zip(b)) (error, size) = (error + Square(x - y), size + Square(y));
        return Math.Sqrt(error / size);
    }

    private static double Square(Complex c) => c.Real * c.Real + c.Imaginary * c.Imaginary;
}

/// <summary>Planes to transform.</summary>
internal static class Planes
{
    /// <summary>The formula of References/Fourier/make.py.</summary>
    public static Plane Known(int width, int height)
    {
        var plane = new Plane(width, height);
        for (var y = 0L; y < height; y++)
            for (var x = 0L; x < width; x++)
                plane[(int)x, (int)y] = (float)((x * 7919 + y * 104729 + x * y * 31 + 17) % 1009 / 1009.0 - 0.5);
        return plane;
    }

    public static Plane Random(int width, int height, int seed = 1)
    {
        var random = new Random(seed);
        return new Plane(width, height).Select(_ => random.NextSingle() - 0.5f);
    }

    /// <summary>Every value of the whole spectrum, those not held included.</summary>
    public static IEnumerable<Complex> Values(Spectrum s) =>
        from v in Enumerable.Range(0, s.Height) from u in Enumerable.Range(0, s.Width) select s.At(u, v);
}
