using Sandarac.Analysis.Numbers;
using Sandarac.Imaging;
using Sandarac.Imaging.Fourier;

namespace Sandarac.Analysis.Sections.Scales;

/// <summary>A regular ripple over a whole picture.</summary>
/// <param name="X">Cycles per pixel rightward.</param>
/// <param name="Y">Cycles per pixel downward.</param>
/// <param name="Power">Its power.</param>
/// <param name="Crosswise">The strongest power as fine or finer in other directions, as a share of it.</param>
internal readonly record struct RulingPeak(double X, double Y, double Power, double Crosswise)
{
    /// <summary>Cycles per pixel.</summary>
    public double Frequency => Math.Sqrt(X * X + Y * Y);
}

/// <summary>Peaks of a picture's power spectrum under Hann's window (Harris, Proceedings of the IEEE 66 (1978) 51, from memory).</summary>
internal static class RulingPeaks
{
    /// <summary>Fewest cycles across the picture, and highest frequency in cycles per pixel.</summary>
    private const double FewestCycles = 5, Highest = 0.47;

    /// <summary>Least power over the median of its frequency: the strongest of a million bins of noise has some ln(1e6) / ln(2) = 20.</summary>
    private const double Least = 200;

    /// <summary>Peaks kept, and of one direction, in sectors of 10 degrees: the edges of a short ruling make many.</summary>
    private const int Kept = 12, KeptOfDirection = 3, Sectors = 18;

    /// <summary>Sine of the angle from which on a direction is another.</summary>
    private const double Aside = 0.34;

    /// <summary>The strongest first: of fine lines' multiples the fundamental is.</summary>
    public static IEnumerable<RulingPeak> Of(Plane picture, ParallelOptions parallel)
    {
        var spectrum = PlaneFourier.Forward(Windowed(picture), parallel: parallel);
        var power = new Power(spectrum);
        var (found, ofSector) = (0, new int[Sectors]);
        foreach (var (u, v) in power.Maxima().OrderByDescending(m => power.At(m.U, m.V)).ThenBy(m => m.V).ThenBy(m => m.U))
        {
            var sector = (int)(Math.Atan2(power.Y(v), power.X(u)) / Math.PI * Sectors + Sectors) % Sectors;
            if (ofSector[sector] >= KeptOfDirection || power.At(u, v) < Least * power.Median(Math.Sqrt(power.X(u) * power.X(u) + power.Y(v) * power.Y(v)))) continue;
            ofSector[sector]++;
            yield return power.Peak(u, v);
            if (++found == Kept) yield break;
        }
    }

    private static Plane Windowed(Plane picture)
    {
        double[] Hann(int n) => [.. Enumerable.Range(0, n).Select(i => 0.5 - 0.5 * Math.Cos(2 * Math.PI * (i + 0.5) / n))];
        var (across, down, mean) = (Hann(picture.Width), Hann(picture.Height), (float)picture.Data.Average(v => (double)v));
        var result = new Plane(picture.Width, picture.Height);
        for (var y = 0; y < picture.Height; y++)
            for (var x = 0; x < picture.Width; x++) result[x, y] = (picture[x, y] - mean) * (float)(across[x] * down[y]);
        return result;
    }

    private sealed class Power(Spectrum spectrum)
    {
        private readonly Dictionary<int, double> _medians = [];

        public double X(int u) => spectrum.CyclesPerPixelX(u);

        public double Y(int v) => spectrum.CyclesPerPixelY(v);

        public double At(int u, int v)
        {
            if (u < 0) (u, v) = (-u, -v);
            if (u >= spectrum.Columns) return 0;
            var value = spectrum.At(u, (v % spectrum.Height + spectrum.Height) % spectrum.Height);
            return value.Real * value.Real + value.Imaginary * value.Imaginary;
        }

        public List<(int U, int V)> Maxima()
        {
            var maxima = new List<(int, int)>();
            for (var v = 0; v < spectrum.Height; v++)
                for (var u = 0; u < spectrum.Columns; u++)
                    if (Counts(u, v) && At(u, v) > 0 && IsMaximum(u, v)) maxima.Add((u, v));
            return maxima;
        }

        /// <summary>The median of a ring a tenth of a frequency wide on either side; never so small that a picture without noise were all peaks.</summary>
        public double Median(double frequency)
        {
            var ring = (int)Math.Round(Math.Log(frequency) / Math.Log(1.1));
            if (_medians.TryGetValue(ring, out var known)) return known;
            var (values, centre, all) = (new List<double>(), Math.Pow(1.1, ring), 0.0);
            for (var v = 0; v < spectrum.Height; v++)
                for (var u = 0; u < spectrum.Columns; u++)
                {
                    all += At(u, v);
                    if (Math.Abs(Math.Sqrt(X(u) * X(u) + Y(v) * Y(v)) / centre - 1) < 0.1) values.Add(At(u, v));
                }
            return _medians[ring] = Math.Max(1e-9 * all, values.Count == 0 ? 0 : Robust.Median(values));
        }

        /// <summary>Its place between the bins by parabolas through logarithms: for Hann's window good to some hundredths of one.</summary>
        public RulingPeak Peak(int u, int v)
        {
            var (x, y) = (X(u) + Vertex(u, v, 1, 0) / spectrum.Width, Y(v) + Vertex(u, v, 0, 1) / spectrum.Height);
            var (f, most) = (Math.Sqrt(x * x + y * y), 0.0);
            for (var q = 0; q < spectrum.Height; q++)
                for (var p = 0; p < spectrum.Columns; p++)
                {
                    var (fx, fy) = (X(p), Y(q));
                    var g = Math.Sqrt(fx * fx + fy * fy);
                    if (g >= 0.5 * f && Counts(p, q) && Math.Abs(fx * y - fy * x) > Aside * f * g) most = Math.Max(most, At(p, q));
                }
            return new RulingPeak(x, y, At(u, v), most / At(u, v));
        }

        private bool Counts(int u, int v)
        {
            var (x, y) = (X(u), Y(v));
            return (u > 0 || v <= spectrum.Height / 2) && x * x + y * y <= Highest * Highest && Math.Pow(x * spectrum.Width, 2) + Math.Pow(y * spectrum.Height, 2) >= FewestCycles * FewestCycles;
        }

        private bool IsMaximum(int u, int v)
        {
            var value = At(u, v);
            for (var j = -1; j <= 1; j++)
                for (var i = -1; i <= 1; i++)
                    if (At(u + i, v + j) > value) return false;
            return true;
        }

        private double Vertex(int u, int v, int du, int dv)
        {
            double Log(int s) => Math.Log(At(u + s * du, v + s * dv) + 1e-30);
            var (a, b, c) = (Log(-1), Log(0), Log(1));
            return a - 2 * b + c < 0 ? Math.Clamp(0.5 * (a - c) / (a - 2 * b + c), -0.5, 0.5) : 0;
        }
    }
}
