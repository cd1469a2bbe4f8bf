using System.Runtime.Intrinsics;
using Sandarac.Specimen.Layers;
using Sandarac.Specimen.Optics;
using Sandarac.Specimen.Randomness;

namespace Sandarac.Specimen.Ageing;

/// <summary>A clear layer: it filters light on the way in and out (Beer-Lambert), drinks ultraviolet and luminesces in its stead. No
/// scattering. Half of what it
/// emits goes down and comes back as far as the paint reflects it: over dark paint it glows less.</summary>
/// <param name="Name">For truth.</param>
/// <param name="Absorption">Per um: R, G, B, infrared.</param>
/// <param name="UvAbsorption">Per um at 365 nm.</param>
/// <param name="Luminescence">Radiance of a thick layer over white, R, G, B.</param>
internal sealed record Resin(string Name, Vector128<float> Absorption, float UvAbsorption, Vector128<float> Luminescence)
{
    /// <summary>Aged natural resin: yellow, luminescing greenish.</summary>
    public static readonly Resin Aged = new("aged natural resin", Vector128.Create(0.0011f, 0.0034f, 0.0092f, 0.0003f), 0.025f,
        Vector128.Create(0.42f, 0.80f, 0.54f, 0));

    /// <summary>A later, thinner coat, less yellowed, luminescing weaker and bluer.</summary>
    public static readonly Resin Later = new("later resin coat", Vector128.Create(0.0006f, 0.0015f, 0.0040f, 0.0002f), 0.022f,
        Vector128.Create(0.24f, 0.42f, 0.48f, 0));

    /// <summary>Stand-in for the layer list, which speaks of paints.</summary>
    public Paint AsPaint => new(Name, Absorption, Vector128.Create(1e-5f), Luminescence, UvAbsorption, 2e-5f, [(Name, 1f)]);

    public void Lay(Canvas canvas, int i, float um)
    {
        if (um <= 0) return;
        var mirrored = 0.5f * (Vector128<float>.One + canvas.Reflectance[i]);
        canvas.Reflectance[i] *= Vector128.Exp(-2 * um * Absorption);
        var (uv, glow) = (MathF.Exp(-UvAbsorption * um), canvas.Glow[i]);
        var lit = glow * uv * Vector128.Exp(-um * Absorption) + Luminescence * mirrored * (1 - uv);
        canvas.Glow[i] = lit.WithElement(3, glow[3] + 2e-5f * um);
        canvas.Height[i] += um;
        canvas.Layer[i] += um;
    }
}

/// <summary>Where varnish lies and how thick: brushed on in two coats, the first once taken off in a trial window.</summary>
internal sealed class Varnish(int seed)
{
    /// <summary>The earlier cleaning window, mm: left, top, right, bottom; corners rounded, edge unsteady.</summary>
    public static readonly (float Left, float Top, float Right, float Bottom) Window = (30, 84, 112, 146);

    /// <summary>Aged coat, um: uneven, with the brush's tracks downward, run together at the lower edge; 2 um left in the window and
    /// swollen at its border.</summary>
    public float AgedUm(float x, float y)
    {
        var cloud = Noise.Fractal(seed + 91, x / 85, y / 70, 3);
        var tracks = Noise.At(seed + 92, x / 2.6f + 6 * Noise.At(seed + 93, x / 60, y / 110), y / 110) + 0.6f
            * Noise.At(seed + 94, x / 7, y / 200);
        var um = 23 + 15 * cloud + 3.5f * tracks + 7 * Shape.Step(380, 412, y);
        var inside = WindowDepth(x, y);
        var tide = MathF.Exp(-MathF.Pow((inside + 0.4f) / 1.1f, 2));
        var left = 1 - Shape.Step(-0.5f, 1.6f, inside);
        return Math.Max(1.5f, um * left + 2 + 13 * tide + (left < 1 ? 1.5f * (1 - left) * Noise.Fractal(seed + 97, x / 22, y / 4, 3) : 0));
    }

    /// <summary>Later coat, um.</summary>
    public float LaterUm(float x, float y) => Math.Max(1.5f, 7 + 2.2f * Noise.Fractal(seed + 95, x / 60, y / 60, 2) + 0.7f
        * Noise.At(seed + 96, x / 120, y / 3.4f + 4 * Noise.At(seed + 99, x / 120, y / 60)));

    /// <summary>How deep inside the cleaning window, mm; negative outside.</summary>
    public float WindowDepth(float x, float y)
    {
        var w = Window;
        if (x < w.Left - 12 || x > w.Right + 12 || y < w.Top - 12 || y > w.Bottom + 12) return -9;
        var wobble = 2.2f * Noise.Fractal(seed + 98, x / 14, y / 14, 3);
        var (dx, dy) = (Math.Max(w.Left + 8 - x, x - w.Right + 8), Math.Max(w.Top + 8 - y, y - w.Bottom + 8));
        var outside = MathF.Sqrt(Math.Max(dx, 0) * Math.Max(dx, 0) + Math.Max(dy, 0) * Math.Max(dy, 0)) + Math.Min(Math.Max(dx, dy), 0);
        return 8 - outside + wobble;
    }

    public void LayAged(Canvas canvas, ParallelOptions options) => Lay(canvas, Resin.Aged, AgedUm, options);

    public void LayLater(Canvas canvas, ParallelOptions options) => Lay(canvas, Resin.Later, LaterUm, options);

    private static void Lay(Canvas canvas, Resin resin, Func<float, float, float> um, ParallelOptions options) =>
        canvas.ForRows(options, row =>
    {
        var grid = canvas.Grid;
        for (var column = 0; column < grid.Width; column++) resin.Lay(canvas, row * grid.Width + column, um(grid.X(column), grid.Y(row)));
    });
}
