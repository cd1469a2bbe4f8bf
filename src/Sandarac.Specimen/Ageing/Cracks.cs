using System.Runtime.Intrinsics;
using Sandarac.Specimen.Layers;
using Sandarac.Specimen.Randomness;
using Sandarac.Specimen.Support;

namespace Sandarac.Specimen.Ageing;

/// <summary>
/// Age cracks through ground and paint: a wide-meshed network whose long sides run with the grain, and a finer one where the paint is
/// stiff with lead white.
/// Cracks are the borders of a cell pattern (S. Worley, A Cellular Texture Basis Function, SIGGRAPH 1996), bent by noise and interrupted.
/// </summary>
internal sealed class Cracks(int seed, PanelBuild panel)
{
    public Mask Open(Canvas canvas, ParallelOptions options)
    {
        var grid = canvas.Grid;
        var share = new byte[grid.Count];
        canvas.ForRows(options, row =>
        {
            for (var i = row * grid.Width; i < (row + 1) * grid.Width; i++)
            {
                var (x, y) = (grid.X(i - row * grid.Width), grid.Y(row));
                var (open, near) = At(x, y, canvas.Reflectance[i][1], grid.MmPerPixel);
                canvas.Height[i] += 10 * near;
                if (open > 0.004f) Part(canvas, i, open, PanelBuild.Attenuation(panel.Grain(x, y), x, y));
                share[i] = (byte)(255 * open);
            }
        });
        return new Mask("cracks", "share of the pixel that is an open age crack through paint and ground", share);
    }

    /// <summary>Share of the pixel that is crack, and how close a lifted edge is (0-1).</summary>
    private (float Open, float Near) At(float x, float y, float lightness, float pixel)
    {
        // Most of the surface holds: no network is sought there.
        var (held, fineHeld) = (Shape.Step(-0.15f, 0.25f, Noise.Fractal(seed + 84, x / 80, y / 40, 2)),
            lightness < 0.22f ? 0 : Shape.Step(0.22f, 0.5f, lightness) * Shape.Step(-0.1f, 0.35f,
                Noise.Fractal(seed + 85, x / 50, y / 34, 2)));
        if (held + fineHeld == 0) return (0, 0);
        var (bx, by) = (x + 5 * Noise.Fractal(seed + 81, x / 13, y / 7, 3), y + 2.6f * Noise.Fractal(seed + 82, x / 16, y / 9, 3));
        var along = held > 0 ? Border(seed + 83, bx / 46, by / 10.5f) * 10.5f : 9;
        var width = (0.05f + 0.05f * Noise.Fractal(seed + 87, x / 20, y / 12, 2)) * held;
        var fine = fineHeld > 0 ? Border(seed + 86, bx / 3.6f, by / 2.6f) * 2.6f : 9;
        var open = Math.Max(Covered(along, width, pixel), Covered(fine, 0.035f * fineHeld, pixel));
        return (open, Math.Max(held * MathF.Exp(-along / 0.5f), 0.4f * fineHeld * MathF.Exp(-fine / 0.3f)));
    }

    /// <summary>A line of a width, at a distance, seen by a square pixel: box filter.</summary>
    private static float Covered(float distance, float width, float pixel) =>
        Math.Clamp((width / 2 + pixel / 2 - distance) / pixel, 0, Math.Min(1, width / pixel));

    /// <summary>The gap is dark with dirt, in infrared less so; what filled it no longer stops X-rays.</summary>
    private static void Part(Canvas canvas, int i, float open, float wood)
    {
        var gap = Vector128.Create(0.035f, 0.028f, 0.022f, 0.12f);
        canvas.Reflectance[i] += (gap - canvas.Reflectance[i]) * open;
        var glow = canvas.Glow[i];
        canvas.Glow[i] = (glow * (1 - 0.85f * open)).WithElement(3, glow[3] - 0.8f * open * (glow[3] - wood));
        canvas.Height[i] -= 120 * open;
    }

    /// <summary>Distance to the nearest border between cells, in cells: half the difference of the two smallest distances.</summary>
    private static float Border(int stream, float x, float y)
    {
        var (ix, iy) = ((int)MathF.Floor(x), (int)MathF.Floor(y));
        float first = 9, second = 9;
        for (var dy = -1; dy <= 1; dy++)
            for (var dx = -1; dx <= 1; dx++)
            {
                var h = Hash.Of(stream, ix + dx, iy + dy);
                var (px, py) = (ix + dx + (h & 0xffff) / 65536f - x, iy + dy + (h >> 16 & 0xffff) / 65536f - y);
                var d = px * px + py * py;
                if (d < first) (first, second) = (d, first);
                else if (d < second) second = d;
            }
        return (MathF.Sqrt(second) - MathF.Sqrt(first)) / 2;
    }
}
