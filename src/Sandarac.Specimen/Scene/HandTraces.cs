using System.Numerics;
using System.Runtime.Intrinsics;
using Sandarac.Specimen.Layers;
using Sandarac.Specimen.Optics;
using Sandarac.Specimen.Randomness;

namespace Sandarac.Specimen.Scene;

/// <summary>What tools other than the brush left: a knife scraped back through wet paint, a finger pressed into it.</summary>
internal static class HandTraces
{
    /// <summary>Paths of the knife, mm: from, to and width.</summary>
    private static readonly (Vector2 From, Vector2 To, float Width)[] Knife =
        [(new(224, 342), new(306, 347), 5), (new(232, 351), new(322, 354), 4), (new(420, 328), new(474, 322), 4.5f)];

    /// <summary>Middle of the fingerprint and its half axes, mm.</summary>
    public static readonly (Vector2 Centre, float Rx, float Ry) Finger = (new(66, 392), 8, 10.5f);

    /// <summary>Takes paint off along the knife's paths, down to what <paramref name="before"/> held.</summary>
    public static Mask Scrape(Canvas canvas, Vector128<float>[] before, float[] heightBefore, int seed, ParallelOptions options)
    {
        var grid = canvas.Grid;
        var mask = Mask.From("scraped", "paint scraped back with a knife while wet", grid, options, i => Scraped(grid, i, seed));
        canvas.ForRows(options, row =>
        {
            for (var i = row * grid.Width; i < (row + 1) * grid.Width; i++)
            {
                if (mask.Data[i] == 0) continue;
                var share = mask.Data[i] / 255f;
                canvas.Reflectance[i] += (before[i] - canvas.Reflectance[i]) * share;
                canvas.Height[i] += (heightBefore[i] - canvas.Height[i]) * share;
                canvas.Layer[i] *= 1 - share;
            }
        });
        return mask;
    }

    /// <summary>A finger black with charcoal: ridges half a millimetre apart leave carbon, and a relief in the wet paint.</summary>
    public static Mask Print(Canvas canvas, int seed, ParallelOptions options)
    {
        var grid = canvas.Grid;
        var mask = Mask.From("fingerprint", "carbon left by the ridges of a finger in wet paint", grid, options, i =>
            Ridges(grid.X(i % grid.Width), grid.Y(i / grid.Width), seed));
        canvas.ForRows(options, row =>
        {
            for (var i = row * grid.Width; i < (row + 1) * grid.Width; i++)
            {
                var r = Vector128.Max(canvas.Reflectance[i], Vector128.Create(0.02f));
                if (mask.Data[i] > 0) canvas.Lay(i, Bodies.Charcoal, 2.2f * mask.Data[i] / 255f);
                var (x, y) = (grid.X(i - row * grid.Width), grid.Y(row));
                // Wet paint of the colour around closes over it: nearly hidden in daylight, transparent in infrared.
                var near = Pad(x, y, 1.5f);
                var k = Bodies.Ochre.S * (Vector128<float>.One - r) * (Vector128<float>.One - r) / (2f * r);
                if (near > 0) canvas.Lay(i, k.WithElement(3, Bodies.Ochre.K[3]), Bodies.Ochre, near
                    * (26 + 7 * Noise.At(seed + 115, x / 7, y / 1.2f)));
            }
        });
        return mask;
    }

    private static float Scraped(PlaneGrid grid, int i, int seed)
    {
        var at = new Vector2(grid.X(i % grid.Width), grid.Y(i / grid.Width));
        var most = 0f;
        foreach (var (from, to, width) in Knife)
        {
            var along = to - from;
            var t = Vector2.Dot(at - from, along) / along.LengthSquared();
            if (t is < 0 or > 1) continue;
            var off = Vector2.Distance(at, from + t * along) / (width / 2);
            var chatter = 0.72f + 0.30f * Noise.Along(seed + 111, 1, t * along.Length() / 3) + 0.35f
                * Noise.Along(seed + 112, (int)(off * 9), t * 7);
            most = Math.Max(most, (1 - Shape.Step(0.9f, 1.02f, off)) * Math.Clamp(chatter, 0, 0.95f));
        }
        return most;
    }

    private static float Pad(float x, float y, float size)
    {
        var (dx, dy) = ((x - Finger.Centre.X) / (Finger.Rx * size), (y - Finger.Centre.Y) / (Finger.Ry * size));
        return 1 - Shape.Step(0.7f, 1.0f, dx * dx + dy * dy);
    }

    private static float Ridges(float x, float y, int seed)
    {
        var inside = Pad(x, y, 1);
        if (inside <= 0) return 0;
        // A loop: arcs around a core below the middle, drawn out to one side, joined and broken by noise.
        var (cx, cy) = (x - Finger.Centre.X + 0.25f * (y - Finger.Centre.Y), (y - Finger.Centre.Y - 2) * 0.72f);
        var phase = MathF.Sqrt(cx * cx + cy * cy) / 0.55f + 0.9f * Noise.Fractal(seed + 113, x / 2.6f, y / 2.6f, 2);
        var ridge = Shape.Step(-0.1f, 0.5f, MathF.Cos(2 * MathF.PI * phase));
        return inside * ridge * Shape.Step(-0.75f, -0.25f, Noise.Fractal(seed + 114, x / 1.1f, y / 1.1f, 2));
    }
}
