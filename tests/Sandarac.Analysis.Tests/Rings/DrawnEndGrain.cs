using Sandarac.Analysis.Alignment.Pairs;
using Sandarac.Analysis.Rings.Measuring;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Tests.Rings;

/// <summary>End grain drawn by rule with known boundaries: earlywood light, darkening towards the latewood, then the step to the next ring. Not a photograph: real wood is richer.</summary>
internal sealed record DrawnEndGrain
{
    /// <summary>Parts of a pixel in which the wood is drawn before it is blurred.</summary>
    private const int Fine = 32;

    public int Seed { get; init; } = 1;

    /// <summary>Ring widths in pixels, median, least, and standard deviation of the logarithm.</summary>
    public double Median { get; init; } = 22;

    public double Least { get; init; } = 8;

    public double Spread { get; init; } = 0.35;

    /// <summary>Degrees by which boundaries lean against a right angle to the rows.</summary>
    public double Lean { get; init; }

    /// <summary>Radius of the rings in pixels; 0 for straight ones.</summary>
    public double Radius { get; init; }

    /// <summary>Standard deviation of the noise, as a share of full scale.</summary>
    public double Noise { get; init; } = 0.02;

    /// <summary>Contrast of latewood against earlywood, as a share of full scale.</summary>
    public double Contrast { get; init; } = 0.3;

    public int Rays { get; init; }

    public int Cracks { get; init; }

    /// <summary>Pores in the first third of each ring, as ring-porous wood has them: how many in a square of a hundred pixels.</summary>
    public double Pores { get; init; }

    /// <summary>Standard deviation of the lens's blur, pixels.</summary>
    public double Blur { get; init; } = 1;

    /// <summary>How late in its ring the wood darkens: darkness rises as this power of the part of the ring that has grown.</summary>
    public double Power { get; init; } = 2.5;

    public int Width { get; init; } = 1400;

    public int Height { get; init; } = 160;

    /// <summary>Boundaries along the middle row, pixels from the left.</summary>
    public IReadOnlyList<double> Boundaries { get; private set; } = [];

    /// <summary>Draws it; 16 bit.</summary>
    public Plane Draw()
    {
        var random = new Random(Seed);
        double Normal() => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
        var (edges, previous) = (new List<double> { -0.3 * Width }, 0.0);
        while (edges[^1] < 1.3 * Width)
        {
            // Neighbouring years are alike: half of the deviation is carried over.
            previous = 0.5 * previous + Math.Sqrt(0.75) * Normal();
            edges.Add(edges[^1] + Math.Max(Least, Median * Math.Exp(Spread * previous)));
        }
        var late = edges.Select(_ => 0.8 + 0.4 * random.NextDouble()).ToArray();
        var cosine = Math.Cos(Lean * Math.PI / 180);
        // A boundary's place is counted across the rings; along the row it is longer by the lean.
        Boundaries = [.. edges.Select(e => e / cosine).Where(e => e > 0 && e < Width)];
        var (plane, tangent, dark) = (new Plane(Width, Height), Math.Tan(Lean * Math.PI / 180), Dark(edges, late));
        for (var y = 0; y < Height; y++)
            for (var x = 0; x < Width; x++)
            {
                var across = y + 0.5 - Height / 2.0;
                var bow = Radius > 0 ? Radius - Math.Sqrt(Radius * Radius - across * across) : 0;
                var at = (x + 0.5 - tangent * across + bow) * cosine;
                plane[x, y] = (float)(0.55 + 0.08 * (x - Width / 2.0) / Width + 0.05 * across / Height - Contrast * At(dark, at - edges[0]));
            }
        Pored(plane, edges, cosine, tangent, random);
        for (var n = 0; n < Rays; n++) Stroke(plane, random, 0.06 * (random.NextDouble() < 0.5 ? 1 : -1), 1 + random.Next(2), Width / 6 + random.Next(Width / 3), 0.01);
        for (var n = 0; n < Cracks; n++) Stroke(plane, random, -0.4, 2 + random.Next(4), Width / 4 + random.Next(Width / 2), 0.06);
        return plane.AddNoise(Noise, Seed + 1000).Select(v => Math.Clamp(v, 0, 1) * 65535);
    }

    /// <summary>0 in earlywood to 1 in latewood from the first edge on, in parts of a pixel: sharp as wood is, then blurred as a lens does.</summary>
    private double[] Dark(List<double> edges, double[] late)
    {
        var (sharp, ring) = (new double[(int)((edges[^1] - edges[0]) * Fine)], 0);
        for (var i = 0; i < sharp.Length; i++)
        {
            var at = edges[0] + (i + 0.5) / Fine;
            while (at >= edges[ring + 1]) ring++;
            sharp[i] = late[ring] * Math.Pow((at - edges[ring]) / (edges[ring + 1] - edges[ring]), Power);
        }
        return Smoothing.Of(sharp, GaussianTaps.Of(Blur * Fine).Smooth);
    }

    private static double At(double[] dark, double along)
    {
        var (i, part) = ((int)(along * Fine - 0.5), along * Fine - 0.5 - (int)(along * Fine - 0.5));
        return dark[i] + part * (dark[i + 1] - dark[i]);
    }

    private void Pored(Plane plane, List<double> edges, double cosine, double tangent, Random random)
    {
        for (var n = (int)(Pores * Width * Height / 1e4); n > 0; n--)
        {
            var ring = random.Next(edges.Count - 1);
            var (at, y, radius) = (edges[ring] + 2 + random.NextDouble() * 0.3 * (edges[ring + 1] - edges[ring]), random.NextDouble() * Height, 0.8 + 1.4 * random.NextDouble());
            Disc(plane, at / cosine + tangent * (y - Height / 2.0), y, radius, -0.2f);
        }
    }

    private static void Stroke(Plane plane, Random random, double depth, int breadth, int length, double wander)
    {
        var (x, y, slope) = (random.NextDouble() * plane.Width, random.NextDouble() * plane.Height, 0.0);
        for (var i = 0; i < length; i++)
        {
            slope = 0.95 * slope + wander * (random.NextDouble() - 0.5);
            (x, y) = (x + 1, y + slope);
            for (var b = 0; b < breadth; b++)
                if ((int)x < plane.Width && (int)y + b >= 0 && (int)y + b < plane.Height) plane[(int)x, (int)y + b] += (float)depth;
        }
    }

    private static void Disc(Plane plane, double cx, double cy, double radius, float depth)
    {
        for (var y = (int)(cy - radius); y <= cy + radius; y++)
            for (var x = (int)(cx - radius); x <= cx + radius; x++)
                if (x >= 0 && y >= 0 && x < plane.Width && y < plane.Height && new Point2(x + 0.5, y + 0.5).DistanceTo(new Point2(cx, cy)) <= radius) plane[x, y] += depth;
    }
}
