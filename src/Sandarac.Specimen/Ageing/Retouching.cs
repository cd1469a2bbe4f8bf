using System.Numerics;
using System.Runtime.Intrinsics;
using Sandarac.Specimen.Layers;
using Sandarac.Specimen.Optics;
using Sandarac.Specimen.Randomness;

namespace Sandarac.Specimen.Ageing;

/// <summary>Old losses and the retouchings that hide them. A retoucher matches the colour of what surrounds the place in daylight; under
/// 365 nm and in infrared
/// the match fails.</summary>
internal sealed class Retouching(int seed)
{
    /// <summary>Centre, radii (mm): laid before the later coat of varnish.</summary>
    public static readonly (float X, float Y, float Rx, float Ry)[] UnderVarnish = [(262, 46, 15, 6), (60, 206, 11, 4), (356, 346, 16, 6),
        (150, 376, 9, 5)];

    /// <summary>Centre, radii (mm): laid on top of everything.</summary>
    public static readonly (float X, float Y, float Rx, float Ry)[] OverVarnish = [(414, 118, 18, 9), (212, 142, 13, 6), (490, 60, 8, 14),
        (306, 302, 17, 5), (110, 302, 6, 9), (240, 384, 24, 6), (505, 210, 9, 5)];

    /// <summary>Losses down into the ground under the first three places of each list.</summary>
    public Mask Lose(Canvas canvas, ParallelOptions options)
    {
        (float, float, float, float)[] places = [.. UnderVarnish[..3], .. OverVarnish[..3]];
        var mask = Mask.From("losses", "paint lost down to the ground, filled and retouched", canvas.Grid, options, i =>
            Shape.Step(0.42f, 0.48f, Depth(canvas.Grid, i, places)));
        canvas.ForRows(options, row =>
        {
            for (var i = row * canvas.Grid.Width; i < (row + 1) * canvas.Grid.Width; i++)
            {
                if (mask.Data[i] == 0) continue;
                var gone = mask.Data[i] / 255f;
                var glow = canvas.Glow[i];
                canvas.Glow[i] = glow + (Bodies.Chalk.Luminescence.WithElement(3, Math.Min(glow[3], 0.4f)) - glow) * gone;
                canvas.Reflectance[i] += (Vector128.Create(0.78f, 0.74f, 0.66f, 0.85f) - canvas.Reflectance[i]) * gone;
                canvas.Height[i] -= 18 * gone;
            }
        });
        return mask;
    }

    /// <summary>Lays retouching over places: as thick as a small brush leaves it, in short hatches, a shade off.</summary>
    public Mask Lay(Canvas canvas, string name, string meaning, (float X, float Y, float Rx, float Ry)[] places, ParallelOptions options)
    {
        var matched = places.Select(p => Match(canvas, p)).ToArray();
        var grid = canvas.Grid;
        var mask = Mask.From(name, meaning, grid, options, i => Shape.Step(0, 0.12f, Depth(grid, i, places)));
        canvas.ForRows(options, row =>
        {
            for (var i = row * grid.Width; i < (row + 1) * grid.Width; i++)
            {
                if (mask.Data[i] == 0) continue;
                var (x, y) = (grid.X(i - row * grid.Width), grid.Y(row));
                var hatch = 0.75f + 0.25f * Noise.At(seed + 103, (x + y) / 0.9f, (x - y) / 5);
                canvas.Lay(i, Matching(matched[Nearest(places, x, y)](x, y), canvas.Reflectance[i]), Bodies.Retouch, mask.Data[i] / 255f
                    * 26 * hatch);
            }
        });
        return mask;
    }

    /// <summary>The colours at the left and right rim of a place, read from the surface as it is now and mixed across it.</summary>
    private static Func<float, float, Vector128<float>> Match(Canvas canvas, (float X, float Y, float Rx, float Ry) p)
    {
        Vector128<float>[] rim = [.. new[] { (-1.15f, -0.3f), (1.15f, -0.3f), (-1.15f, 0.3f), (1.15f, 0.3f) }.Select(o =>
            Mean(canvas, p.X + o.Item1 * p.Rx, p.Y + o.Item2 * p.Ry))];
        return (x, y) =>
        {
            var (u, v) = (Math.Clamp((x - p.X) / p.Rx / 2 + 0.5f, 0, 1), Math.Clamp((y - p.Y) / p.Ry / 2 + 0.5f, 0, 1));
            var r = (rim[0] + (rim[1] - rim[0]) * u) * (1 - v) + (rim[2] + (rim[3] - rim[2]) * u) * v;
            return r;
        };
    }

    /// <summary>Absorption that gives half the rim's colour and half what shows at the place itself, as far as that is near it, a shade
    /// too dark. Only the eye's three bands are
    /// matched: the fourth stays the retouching's own.</summary>
    private static Vector128<float> Matching(Vector128<float> rim, Vector128<float> place)
    {
        var near = Vector128.Min(Vector128.Max(place, rim * 0.82f), rim * 1.1f);
        var (r, one) = (Vector128.Max((rim + near) * 0.485f, Vector128.Create(0.01f)), Vector128<float>.One);
        return (Bodies.Retouch.S * (one - r) * (one - r) / (2f * r)).WithElement(3, Bodies.Retouch.K[3]);
    }

    private static Vector128<float> Mean(Canvas canvas, float x, float y)
    {
        var grid = canvas.Grid;
        var reach = Math.Max(1, (int)(1.5f / grid.MmPerPixel));
        var (cx, cy) = ((int)(x / grid.MmPerPixel), (int)(y / grid.MmPerPixel));
        var (sum, count) = (Vector128<float>.Zero, 0);
        for (var j = Math.Max(0, cy - reach); j <= Math.Min(grid.Height - 1, cy + reach); j++)
            for (var i = Math.Max(0, cx - reach); i <= Math.Min(grid.Width - 1, cx + reach); i++, count++) sum += canvas.Reflectance[j
                * grid.Width + i];
        return sum / Math.Max(count, 1);
    }

    private float Depth(PlaneGrid grid, int i, (float X, float Y, float Rx, float Ry)[] places)
    {
        var (x, y) = (grid.X(i % grid.Width), grid.Y(i / grid.Width));
        var deepest = -1f;
        foreach (var p in places)
        {
            var r = new Vector2((x - p.X) / p.Rx, (y - p.Y) / p.Ry).LengthSquared();
            if (r < 4) deepest = Math.Max(deepest, 1 - MathF.Sqrt(r) + 0.75f * Noise.Fractal(seed + 101, x / 8, y / 5, 4));
        }
        return deepest;
    }

    private static int Nearest((float X, float Y, float Rx, float Ry)[] places, float x, float y) =>
        Enumerable.Range(0, places.Length).MinBy(k => new Vector2((x - places[k].X) / places[k].Rx, (y - places[k].Y)
            / places[k].Ry).LengthSquared());
}
