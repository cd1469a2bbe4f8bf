using Sandarac.Imaging;
using Sandarac.Imaging.Fourier;

namespace Sandarac.Analysis.Relief;

/// <summary>
/// Poisson's equation on a rectangle whose sides let nothing through (Neumann), solved by the cosine transform: exact for the five-point Laplacian (Simchony, Chellappa and Shao, IEEE PAMI 12 (1990) 435).
/// The cosine transform goes through one real Fourier transform of reordered samples (Makhoul, IEEE TASSP 28 (1980) 27), in the spectrum's own memory.
/// </summary>
internal sealed class NeumannPoisson
{
    private readonly int _width, _height;
    private readonly ParallelOptions _parallel;
    private readonly (double Cos, double Sin)[] _turnX, _turnY;
    private readonly double[] _eigenX, _eigenY;

    public NeumannPoisson(int width, int height, ParallelOptions parallel)
    {
        (_width, _height, _parallel) = (width, height, parallel);
        (_turnX, _turnY) = (Turns(width), Turns(height));
        (_eigenX, _eigenY) = (Eigenvalues(width), Eigenvalues(height));
    }

    /// <summary>The plane of mean 0 in which each pixel exceeds its four neighbours, those beyond the sides left out, by the source in sum; the source's mean is left out.</summary>
    public Plane Solve(Plane source)
    {
        var spectrum = PlaneFourier.Forward(Reordered(source, true), FourierScaling.InverseByCount, _parallel);
        Parallel.For(0, _height / 2 + 1, _parallel, v => Divide(spectrum, v));
        return Reordered(PlaneFourier.Inverse(spectrum, _parallel), false);
    }

    /// <summary>Even samples from the front, odd ones from the back, along both sides; or back again.</summary>
    private Plane Reordered(Plane plane, bool forward)
    {
        var result = new Plane(_width, _height, GC.AllocateUninitializedArray<float>(plane.Data.Length));
        Parallel.For(0, _height, _parallel, y =>
        {
            var place = Place(y, _height);
            var from = plane.Row(forward ? y : place);
            var to = result.Row(forward ? place : y);
            if (forward)
                for (var x = 0; x < _width; x++) to[Place(x, _width)] = from[x];
            else
                for (var x = 0; x < _width; x++) to[x] = from[Place(x, _width)];
        });
        return result;
    }

    private static int Place(int n, int length) => n % 2 == 0 ? n / 2 : length - 1 - n / 2;

    /// <summary>Turns rows v and height - v of the spectrum into cosine coefficients, divides them by the Laplacian's eigenvalues and turns them back.</summary>
    private void Divide(Spectrum s, int v)
    {
        var mirror = (_height - v) % _height;
        for (var u = 0; u < s.Columns; u++)
        {
            var (a, b) = (v * s.Columns + u, mirror * s.Columns + u);
            // Along x, with W = exp(-i pi u / 2 width): W V(v, u) + conj(W) V(v, -u), and V(v, -u) is the conjugate of V(-v, u).
            var (re, im, mre, mim) = ((double)s.Re[a], (double)s.Im[a], (double)s.Re[b], (double)s.Im[b]);
            var (cx, sx) = _turnX[u];
            var (cy, sy) = _turnY[v];
            // p = W V(v, u), q = W V(-v, u): the sums and differences below are the cosine transforms along x and, times the turn along y, along both.
            var (pr, pi, qr, qi) = (cx * re + sx * im, cx * im - sx * re, cx * mre + sx * mim, cx * mim - sx * mre);
            var (er, ei, or, oi) = (pr + qr, pi - qi, pi + qi, qr - pr);
            var c = 2 * (cy * er + sy * ei);
            var cRight = -2 * (cy * or + sy * oi);
            var cBelow = 2 * (sy * er - cy * ei);
            var cBoth = -2 * (sy * or - cy * oi);
            var (u1, v1) = (_width - u, _height - v);
            c = Scaled(c, u, v);
            cRight = Scaled(cRight, u1, v);
            cBelow = Scaled(cBelow, u, v1);
            cBoth = Scaled(cBoth, u1, v1);
            Back(s, a, cx, sx, cy, sy, c, cRight, cBelow, cBoth);
            // The mirrored row's own turn is that of height - v.
            if (mirror != v) Back(s, b, cx, sx, sy, cy, cBelow, cBoth, c, cRight);
        }
    }

    /// <summary>V = conj(W_x W_y) [(c(u,v) - c(-u,-v)) - i (c(-u,v) + c(u,-v))] / 4.</summary>
    private static void Back(Spectrum s, int at, double cx, double sx, double cy, double sy, double c, double cRight, double cBelow, double cBoth)
    {
        var (re, im) = ((c - cBoth) / 4, -(cRight + cBelow) / 4);
        var (tr, ti) = (cx * cy - sx * sy, cx * sy + sx * cy);
        (s.Re[at], s.Im[at]) = ((float)(re * tr - im * ti), (float)(re * ti + im * tr));
    }

    private double Scaled(double coefficient, int u, int v) => u == _width || v == _height || (u == 0 && v == 0) ? 0 : coefficient / (_eigenX[u] + _eigenY[v]);

    private static double[] Eigenvalues(int length) => [.. Enumerable.Range(0, length).Select(k => 4 * Math.Pow(Math.Sin(Math.PI * k / (2.0 * length)), 2))];

    private static (double, double)[] Turns(int length) => [.. Enumerable.Range(0, length).Select(k => (Math.Cos(Math.PI * k / (2.0 * length)), Math.Sin(Math.PI * k / (2.0 * length))))];
}
