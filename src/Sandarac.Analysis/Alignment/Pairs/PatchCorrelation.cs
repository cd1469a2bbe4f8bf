using System.Numerics.Tensors;
using Sandarac.Imaging;
using Sandarac.Imaging.Fourier;

namespace Sandarac.Analysis.Alignment.Pairs;

/// <summary>Where a patch of one field lies best in a larger window of another.</summary>
/// <param name="X">Shift to the right from the window's middle, pixels.</param>
/// <param name="Y">Shift down.</param>
/// <param name="Score">Normalised correlation there, -1 to 1.</param>
/// <param name="Distinct">How many standard deviations of the other places the best one stands above their mean (peak-to-sidelobe ratio; Bolme et al., CVPR 2010, 2544).</param>
/// <param name="Kxx">How sharply the score falls, per pixel squared: minus its second derivative.</param>
/// <param name="Kxy">The mixed one.</param>
/// <param name="Kyy">Downward.</param>
/// <param name="Reversed">Whether light and dark have changed places.</param>
internal readonly record struct Peak(double X, double Y, double Score, double Distinct, double Kxx, double Kxy, double Kyy, bool Reversed);

/// <summary>Normalised cross-correlation of two structure fields over all shifts, by Fourier transform (J. P. Lewis, Vision Interface 1995, 120).</summary>
internal static class PatchCorrelation
{
    /// <summary>A peak takes this many pixels on each side; its neighbours are not rivals.</summary>
    private const int PeakReach = 3;

    private static readonly ParallelOptions Alone = new() { MaxDegreeOfParallelism = 1 };

    /// <summary>The best shift; null when the patch or the window is plain, or the best place lies at the search's border.</summary>
    /// <param name="patch">The patch, P x P.</param>
    /// <param name="window">The window, (P + 2 R) x (P + 2 R).</param>
    /// <param name="eitherSign">Whether a picture turned light for dark counts as the same.</param>
    public static Peak? Find(StructureField patch, StructureField window, bool eitherSign)
    {
        var reach = (window.Width - patch.Width) / 2;
        var surface = Surface(patch, window);
        var reversed = eitherSign && -TensorPrimitives.MinNumber<float>(surface.Data) > TensorPrimitives.MaxNumber<float>(surface.Data);
        if (reversed) TensorPrimitives.Negate(surface.Data, surface.Data);
        var best = -1;
        for (var i = 0; i < surface.Data.Length; i++)
            if (!float.IsNaN(surface.Data[i]) && (best < 0 || surface.Data[i] > surface.Data[best])) best = i;
        if (best < 0) return null;
        var (x, y) = (best % surface.Width, best / surface.Width);
        if (x < 1 || y < 1 || x > surface.Width - 2 || y > surface.Height - 2) return null;
        return Refine(surface, x, y) is var (dx, dy, kxx, kxy, kyy) ? new Peak(x + dx - reach, y + dy - reach, surface.Data[best], Distinctness(surface, x, y), kxx, kxy, kyy, reversed) : null;
    }

    /// <summary>The score for each shift, (2 R + 1) squared; NaN where the window is plain.</summary>
    public static Plane Surface(StructureField patch, StructureField window)
    {
        var (width, height) = (window.Width - patch.Width + 1, window.Height - patch.Height + 1);
        var products = Products(patch, window);
        var energy = new Integral(window);
        var own = Math.Sqrt(Energy(patch));
        var surface = new Plane(width, height);
        for (var y = 0; y < height; y++)
            for (var x = 0; x < width; x++)
            {
                var other = Math.Sqrt(energy.Sum(x, y, patch.Width, patch.Height));
                // A hundredth of the patch's own energy is the rounding of a plain window.
                surface[x, y] = own > 0 && other > 0.01 * own ? (float)(products[x, y] / (own * other)) : float.NaN;
            }
        return surface;
    }

    private static Plane Products(StructureField patch, StructureField window)
    {
        var (n, m) = (FastLength.AtLeast(window.Width), FastLength.AtLeast(window.Height));
        var sum = new Spectrum(n, m);
        Add(sum, Padded(patch.Cos, n, m), Padded(window.Cos, n, m));
        Add(sum, Padded(patch.Sin, n, m), Padded(window.Sin, n, m));
        return PlaneFourier.Inverse(sum, Alone);
    }

    private static void Add(Spectrum sum, Plane patch, Plane window)
    {
        var (a, b) = (PlaneFourier.Forward(patch, parallel: Alone), PlaneFourier.Forward(window, parallel: Alone));
        for (var i = 0; i < sum.Re.Length; i++)
        {
            sum.Re[i] += a.Re[i] * b.Re[i] + a.Im[i] * b.Im[i];
            sum.Im[i] += a.Re[i] * b.Im[i] - a.Im[i] * b.Re[i];
        }
    }

    internal static Plane Padded(Plane plane, int width, int height)
    {
        if (plane.Width == width && plane.Height == height) return plane;
        var padded = new Plane(width, height);
        for (var y = 0; y < plane.Height; y++) plane.Row(y).CopyTo(padded.Row(y));
        return padded;
    }

    private static double Energy(StructureField f)
    {
        var sum = 0.0;
        for (var i = 0; i < f.Cos.Data.Length; i++) sum += (double)f.Cos.Data[i] * f.Cos.Data[i] + (double)f.Sin.Data[i] * f.Sin.Data[i];
        return sum;
    }

    /// <summary>The least-squares quadratic surface through the nine values about the highest one.</summary>
    private static (double X, double Y, double Kxx, double Kxy, double Kyy)? Refine(Plane s, int x, int y)
    {
        double At(int dx, int dy) => s[x + dx, y + dy];
        var (left, middle, right) = (At(-1, -1) + At(-1, 0) + At(-1, 1), At(0, -1) + At(0, 0) + At(0, 1), At(1, -1) + At(1, 0) + At(1, 1));
        var (above, centre, below) = (At(-1, -1) + At(0, -1) + At(1, -1), At(-1, 0) + At(0, 0) + At(1, 0), At(-1, 1) + At(0, 1) + At(1, 1));
        var (gx, gy) = ((right - left) / 6, (below - above) / 6);
        var (kxx, kyy) = (-(left - 2 * middle + right) / 3, -(above - 2 * centre + below) / 3);
        var kxy = -(At(1, 1) - At(-1, 1) - At(1, -1) + At(-1, -1)) / 4;
        var determinant = kxx * kyy - kxy * kxy;
        if (!(determinant > 0) || !(kxx > 0)) return null;
        var (dx, dy) = ((kyy * gx - kxy * gy) / determinant, (kxx * gy - kxy * gx) / determinant);
        return Math.Abs(dx) <= 1 && Math.Abs(dy) <= 1 ? (dx, dy, kxx, kxy, kyy) : null;
    }

    private static double Distinctness(Plane s, int x, int y)
    {
        var (n, sum, squares) = (0, 0.0, 0.0);
        for (var v = 0; v < s.Height; v++)
            for (var u = 0; u < s.Width; u++)
            {
                var value = s[u, v];
                if (float.IsNaN(value) || (Math.Abs(u - x) <= PeakReach && Math.Abs(v - y) <= PeakReach)) continue;
                (n, sum, squares) = (n + 1, sum + value, squares + (double)value * value);
            }
        if (n < 9) return 0;
        var deviation = Math.Sqrt(Math.Max(1e-12, squares / n - sum / n * (sum / n)));
        return (s[x, y] - sum / n) / deviation;
    }

    /// <summary>Sums of squares over rectangles.</summary>
    private sealed class Integral
    {
        private readonly double[] _sums;
        private readonly int _stride;

        public Integral(StructureField f)
        {
            _stride = f.Width + 1;
            _sums = new double[_stride * (f.Height + 1)];
            for (var y = 0; y < f.Height; y++)
            {
                var row = 0.0;
                for (var x = 0; x < f.Width; x++)
                {
                    var i = y * f.Width + x;
                    row += (double)f.Cos.Data[i] * f.Cos.Data[i] + (double)f.Sin.Data[i] * f.Sin.Data[i];
                    _sums[(y + 1) * _stride + x + 1] = _sums[y * _stride + x + 1] + row;
                }
            }
        }

        public double Sum(int x, int y, int width, int height) =>
            _sums[(y + height) * _stride + x + width] - _sums[y * _stride + x + width] - _sums[(y + height) * _stride + x] + _sums[y * _stride + x];
    }
}
