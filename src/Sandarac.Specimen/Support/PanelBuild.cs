using System.Runtime.Intrinsics;
using Sandarac.Specimen.Layers;
using Sandarac.Specimen.Optics;
using Sandarac.Specimen.Randomness;

namespace Sandarac.Specimen.Support;

/// <summary>An oak board, grain across, rings seen on the face as long flames; planed to 8 mm, a little convex, with a cradle glued to its
/// back.</summary>
internal sealed class PanelBuild(int seed)
{
    /// <summary>Oak, dry, per um: some 0.5 per cm at the tube's effective energy.</summary>
    private const float WoodPerUm = 5e-5f;

    private const float ThicknessUm = 8000, BarUm = 11000, SlideUm = 9000;

    /// <summary>Bare wood: reflectance, height and what it stops of X-rays, cradle included.</summary>
    public void Lay(Canvas canvas, ParallelOptions options) => canvas.ForRows(options, row =>
    {
        var grid = canvas.Grid;
        var y = grid.Y(row);
        for (var column = 0; column < grid.Width; column++)
        {
            var x = grid.X(column);
            var grain = Grain(x, y);
            var i = row * grid.Width + column;
            canvas.Reflectance[i] = Vector128.Create(0.36f, 0.23f, 0.12f, 0.55f) * (1 + 0.22f * grain);
            canvas.Glow[i] = Vector128.Create(0.10f, 0.11f, 0.08f, Attenuation(grain, x, y));
            canvas.Height[i] = Warp(x, y) + 7 * grain;
        }
    });

    /// <summary>Beer-Lambert exponent of board and cradle at a place with this grain.</summary>
    public static float Attenuation(float grain, float x, float y) => WoodPerUm * (ThicknessUm * (1 + 0.20f * grain) + Cradle(x, y));

    /// <summary>Late wood +1, early wood -1: a sawtooth of ring widths, bent by the log's shape.</summary>
    public float Grain(float x, float y)
    {
        var bent = y + 9 * Noise.At(seed + 61, x / 260, y / 90) + 2.5f * Noise.At(seed + 62, x / 70, y / 24);
        var ring = bent / 2.3f;
        var phase = ring - MathF.Floor(ring);
        var pores = Noise.At(seed + 64, x / 9, y * 3.2f);
        return 1.4f * phase * phase - 0.6f + 0.35f * pores;
    }

    /// <summary>Thickness (um) of the cradle behind a place: three fixed bars along the grain, four sliding battens across that run
    /// through them.</summary>
    public static float Cradle(float x, float y)
    {
        var sum = 0f;
        foreach (var bar in new[] { 74f, 206f, 338f }) sum += BarUm * Bar(y - bar, 19);
        foreach (var slide in new[] { 66f, 195f, 324f, 453f }) sum += SlideUm * Bar(x - slide, 16);
        return Math.Min(sum, BarUm + 3500);
    }

    private static float Bar(float offset, float half) => 1 - Shape.Step(half - 0.4f, half + 0.4f, MathF.Abs(offset));

    /// <summary>Convex across the grain by 0.9 mm, with faint waves where the cradle holds it.</summary>
    private static float Warp(float x, float y)
    {
        var across = (y - 206) / 206;
        return -900 * across * across + 22 * MathF.Cos(2 * MathF.PI * (y - 74) / 132) + 8 * MathF.Cos(2 * MathF.PI * (x - 66) / 129);
    }
}

/// <summary>Chalk and glue, scraped smooth but unevenly thick, its last coat brushed.</summary>
internal static class Ground
{
    public static void Lay(Canvas canvas, PanelBuild panel, int seed, ParallelOptions options) => canvas.ForRows(options, row =>
    {
        var grid = canvas.Grid;
        var y = grid.Y(row);
        for (var column = 0; column < grid.Width; column++)
        {
            var x = grid.X(column);
            var um = Math.Max(25, 130 + 55 * Noise.Fractal(seed + 71, x / 120, y / 90, 3) - 4 * panel.Grain(x, y)
                + 5 * Noise.At(seed + 72, x / 30, y / 0.9f) + 3 * Noise.At(seed + 73, x / 0.6f, y / 0.6f));
            canvas.Lay(row * grid.Width + column, Bodies.Chalk, um);
        }
    });

    /// <summary>What the priming's brush leaves everywhere between its streaks.</summary>
    public static void LayThinPriming(Canvas canvas, int seed, ParallelOptions options) => canvas.ForRows(options, row =>
    {
        var paint = Bodies.Ochre.Mixed(Bodies.Umber, 0.35f).Tinted(0x856C54);
        for (var column = 0; column < canvas.Grid.Width; column++)
            canvas.Lay(row * canvas.Grid.Width + column, paint, 5 + 2 * Noise.At(seed + 74, canvas.Grid.X(column) / 60, canvas.Grid.Y(row)
                / 2.2f));
    });
}
