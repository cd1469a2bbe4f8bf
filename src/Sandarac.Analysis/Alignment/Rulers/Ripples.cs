using Sandarac.Imaging;
using Sandarac.Imaging.Fourier;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Alignment.Rulers;

/// <summary>A place where brightness goes up and down regularly.</summary>
/// <param name="At">Middle of the square it was seen in, pixels.</param>
/// <param name="X">Cycles per pixel rightward, not negative.</param>
/// <param name="Y">Cycles per pixel downward.</param>
/// <param name="Strength">Power over the median of its frequency in the square.</param>
internal readonly record struct Ripple(Point2 At, double X, double Y, double Strength)
{
    /// <summary>Cycles per pixel.</summary>
    public double Frequency => Math.Sqrt(X * X + Y * Y);
}

/// <summary>Looks for regular ripples in overlapping squares of a picture, by the strongest peaks of their power spectra.</summary>
internal static class Ripples
{
    /// <summary>Side of a square, pixels.</summary>
    public const int Side = 64;

    /// <summary>Distance of the squares, pixels.</summary>
    public const int Step = Side / 2;

    /// <summary>Highest frequency, cycles per pixel: ticks closer than that run into one another.</summary>
    private const double Highest = 0.47;

    /// <summary>Lowest frequency: four cycles a square; what is coarser is seen in a smaller picture.</summary>
    private const double Lowest = 4.0 / Side;

    /// <summary>Least strength: noise gives 2000 independent peaks, the strongest some ln(2000) / ln(2) = 11 times the median.</summary>
    private const double Least = 20;

    /// <summary>Peaks kept of a square: the ruler's edge may be one.</summary>
    private const int PeaksKept = 2;

    private static readonly ParallelOptions Alone = new() { MaxDegreeOfParallelism = 1 };

    private static readonly (int U, int V)[][] Rings = AllRings();

    private static readonly float[] Hann = [.. Enumerable.Range(0, Side).Select(i => (float)(0.5 - 0.5 * Math.Cos(2 * Math.PI * (i + 0.5) / Side)))];

    /// <summary>The ripples of a picture, row by row.</summary>
    public static IReadOnlyList<Ripple> Of(Plane picture, ParallelOptions parallel)
    {
        var (columns, rows) = ((picture.Width - Side) / Step + 1, (picture.Height - Side) / Step + 1);
        if (picture.Width < Side || picture.Height < Side) return [];
        var found = new Ripple[columns * rows][];
        Parallel.For(0, found.Length, parallel, i => found[i] = [.. In(picture, i % columns * Step, i / columns * Step)]);
        return [.. found.SelectMany(f => f)];
    }

    private static IEnumerable<Ripple> In(Plane picture, int left, int top)
    {
        var power = Power(picture, left, top);
        if (power is null) return [];
        var at = new Point2(left + Side / 2.0, top + Side / 2.0);
        return Peaks(power).Select(p => new Ripple(at, p.X, p.Y, p.Strength));
    }

    /// <summary>Power, rows of non-negative and then negative frequencies; null for an even square.</summary>
    private static double[,]? Power(Plane picture, int left, int top)
    {
        var square = new Plane(Side, Side);
        double sum = 0;
        for (var y = 0; y < Side; y++)
            for (var x = 0; x < Side; x++) sum += picture[left + x, top + y];
        var mean = (float)(sum / (Side * Side));
        for (var y = 0; y < Side; y++)
            for (var x = 0; x < Side; x++) square[x, y] = (picture[left + x, top + y] - mean) * Hann[x] * Hann[y];
        if (square.Data.All(v => v == 0)) return null;
        var spectrum = PlaneFourier.Forward(square, parallel: Alone);
        var power = new double[Side, Side];
        for (var v = 0; v < Side; v++)
            for (var u = 0; u < Side; u++)
            {
                var value = spectrum.At(u, v);
                power[v, u] = value.Real * value.Real + value.Imaginary * value.Imaginary;
            }
        return power;
    }

    /// <summary>The strongest peaks (fine lines have their fundamental stronger than its multiples), each against the median power of its frequency.</summary>
    private static IEnumerable<(double X, double Y, double Strength)> Peaks(double[,] power)
    {
        List<(int U, int V)> peaks = [];
        var sum = 0.0;
        for (var v = 0; v < Side; v++)
            for (var u = 0; u < Side / 2; u++)
            {
                sum += power[v, u];
                // Each ripple stands twice in the spectrum; on the axis only its upper half is taken.
                if (Frequency(u, v) is >= Lowest and <= Highest && (u > 0 || v <= Side / 2) && IsPeak(power, u, v)) peaks.Add((u, v));
            }
        // A square without noise must not make everything a peak.
        var least = 1e-3 * sum / (Side * Side / 2);
        foreach (var (u, v) in peaks.OrderByDescending(p => power[p.V, p.U]).Take(PeaksKept))
        {
            var strength = power[v, u] / Math.Max(least, Median(power, Rings[(int)Math.Round(Frequency(u, v) * Side)]));
            if (strength >= Least) yield return (Signed(u) + Vertex(power, u, v, 1, 0) / Side, Signed(v) + Vertex(power, u, v, 0, 1) / Side, strength);
        }
    }

    private static double Median(double[,] power, (int U, int V)[] ring) => Numbers.Robust.Median(ring.Select(r => power[r.V, r.U]));

    private static double Frequency(int u, int v) => Math.Sqrt(Signed(u) * Signed(u) + Signed(v) * Signed(v));

    /// <summary>For each frequency in cycles a square the places in the spectrum that lie within two of it.</summary>
    private static (int U, int V)[][] AllRings() => [.. Enumerable.Range(0, Side / 2).Select(r => Enumerable.Range(0, Side * Side / 2)
        .Select(i => (U: i % (Side / 2), V: i / (Side / 2))).Where(p => Math.Abs(Frequency(p.U, p.V) * Side - r) <= 2).ToArray())];

    private static bool IsPeak(double[,] power, int u, int v)
    {
        for (var j = -1; j <= 1; j++)
            for (var i = -1; i <= 1; i++)
                if ((i, j) != (0, 0) && At(power, u + i, v + j) > power[v, u]) return false;
        return true;
    }

    /// <summary>Where a parabola through the logarithms of three neighbours has its vertex, -0.5 to 0.5 steps: for Hann's window good to some hundredths of a step.</summary>
    private static double Vertex(double[,] power, int u, int v, int du, int dv)
    {
        double Log(int s) => Math.Log(At(power, u + s * du, v + s * dv) + 1e-30);
        var (a, b, c) = (Log(-1), Log(0), Log(1));
        return a - 2 * b + c < 0 ? Math.Clamp(0.5 * (a - c) / (a - 2 * b + c), -0.5, 0.5) : 0;
    }

    private static double At(double[,] power, int u, int v) => power[(v + Side) % Side, (u + Side) % Side];

    private static double Signed(int index) => (double)(index < Side / 2 ? index : index - Side) / Side;
}
