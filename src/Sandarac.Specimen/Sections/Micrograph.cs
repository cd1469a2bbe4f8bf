using System.Runtime.Intrinsics;
using Sandarac.Specimen.Randomness;

namespace Sandarac.Specimen.Sections;

/// <summary>The polished section as two images of 0.25 um a pixel: what it reflects in dark field, and how it luminesces under 365
/// nm.</summary>
internal sealed class Micrograph
{
    public const float UmPerPixel = 0.25f;

    public const float ResinAboveUm = 55;

    private const float ResinBelowUm = 40;

    /// <summary>Paint at the sample's ends breaks off unevenly by so much, um.</summary>
    private const float EndUm = 5;

    private static readonly Vector128<float> ResinVisible = Vector128.Create(0.30f, 0.30f, 0.285f, Backscatter.OfMedium),
        ResinGlow = Vector128.Create(0.055f, 0.075f, 0.125f, 0);
    private const byte Outside = 255;
    private readonly int _seed;
    private readonly byte[] _layerOf;
    private readonly IReadOnlyList<Bubble> _bubbles;

    /// <param name="stack">The layers.</param>
    /// <param name="particles">What is strewn into them.</param>
    /// <param name="seed">Chooses the texture.</param>
    /// <param name="options">Threads and cancellation.</param>
    /// <param name="marginUm">Resin above and below beside the usual, um.</param>
    /// <param name="bubbles">Bubbles in the resin.</param>
    public Micrograph(Stack stack, IReadOnlyList<Particle> particles, int seed, ParallelOptions options, float marginUm = 0, IReadOnlyList<Bubble>? bubbles = null)
    {
        (_seed, _bubbles) = (seed, bubbles ?? []);
        Width = (int)((stack.Columns - 1) * Stack.StepUm / UmPerPixel);
        TopUm = stack.Layers[^1].Top.Max() + ResinAboveUm + marginUm;
        Height = (int)((TopUm - stack.Base.Min() + ResinBelowUm + marginUm) / UmPerPixel);
        (Visible, Glow) = (new Vector128<float>[Width * Height], new Vector128<float>[Width * Height]);
        _layerOf = new byte[Width * Height];
        Parallel.For(0, Width, options, x => Column(stack, x));
        foreach (var p in particles) Draw(stack, p);
    }

    public int Width { get; }

    public int Height { get; }

    /// <summary>Height of the image's upper edge above the section's base, um.</summary>
    public float TopUm { get; }

    /// <summary>R, G, B and the share of electrons sent back, where the stack says it.</summary>
    public Vector128<float>[] Visible { get; }

    public Vector128<float>[] Glow { get; }

    private void Column(Stack stack, int x)
    {
        var um = (x + 0.5f) * UmPerPixel;
        for (var y = 0; y < Height; y++)
        {
            var up = TopUm - (y + 0.5f) * UmPerPixel;
            var n = LayerAt(stack, um, up);
            _layerOf[y * Width + x] = n;
            var layer = n == Outside ? null : stack.Layers[n];
            var texture = 1 + 0.10f * Noise.At(_seed + 301, um / 1.3f, up / 1.3f) + 0.08f * Noise.At(_seed + 302, um / 9, up / 7);
            var (visible, glow) = layer is null ? (ResinVisible, ResinGlow) : (layer.Visible, layer.Glow);
            Visible[y * Width + x] = visible * (layer is null ? 1 + 0.03f * Noise.At(_seed + 303, um / 60, up / 60) : texture);
            Glow[y * Width + x] = glow * texture;
            if (layer is null) Darken(y * Width + x, um, up);
        }
    }

    /// <summary>A bubble turns light away at its rim and lets a bright spot through in the middle.</summary>
    private void Darken(int at, float um, float up)
    {
        foreach (var bubble in _bubbles)
        {
            var r = MathF.Sqrt((um - bubble.X) * (um - bubble.X) + (up - bubble.Y) * (up - bubble.Y)) / bubble.RadiusUm;
            if (r >= 1) continue;
            var light = 1 - 0.75f * Shape.Step(0.55f, 0.85f, r) * (1 - Shape.Step(0.97f, 1, r)) + 0.8f * (1 - Shape.Step(0.1f, 0.3f, r));
            (Visible[at], Glow[at]) = (Visible[at] * light, Glow[at] * (0.4f + 0.6f * light));
        }
    }

    private byte LayerAt(Stack stack, float um, float up)
    {
        var ragged = EndUm * Noise.Fractal(_seed + 304, up / 14, 0.5f, 2);
        if (um < stack.Ends.From + ragged || um > stack.Ends.To + ragged) return Outside;
        if (up < Between(stack.Base, um) || up < Between(stack.Floor, um)) return Outside;
        for (byte n = 0; n < stack.Layers.Count; n++)
            if (up < Between(stack.Layers[n].Top, um)) return n;
        return Outside;
    }

    private static float Between(float[] heights, float um)
    {
        var at = Math.Clamp(um / Stack.StepUm, 0, heights.Length - 1.001f);
        return heights[(int)at] + (at - (int)at) * (heights[(int)at + 1] - heights[(int)at]);
    }

    /// <summary>A particle covers what lies inside its own layer only.</summary>
    private void Draw(Stack stack, Particle p)
    {
        var (reach, grain) = (p.DiameterUm, Grain.Of(p.Body)!);
        var colour = Strewing.ColourOf(p);
        var glows = stack.Layers[p.Layer].Glow * (0.75f + 0.25f * p.Shade);
        for (var y = Math.Max(0, (int)((TopUm - p.Y - reach) / UmPerPixel)); y < Math.Min(Height, (TopUm - p.Y + reach) / UmPerPixel); y++)
            for (var x = Math.Max(0, (int)((p.X - reach) / UmPerPixel)); x < Math.Min(Width, (p.X + reach) / UmPerPixel); x++)
            {
                var i = y * Width + x;
                if (_layerOf[i] != p.Layer) continue;
                var (um, up) = ((x + 0.5f) * UmPerPixel, TopUm - (y + 0.5f) * UmPerPixel);
                var inside = p.Reach(um - p.X, up - p.Y, grain.Angular);
                if (inside >= 1) continue;
                var share = 0.8f * (1 - Shape.Step(0.82f, 1, inside));
                Visible[i] += (colour * (1.08f - 0.22f * inside) - Visible[i]) * share;
                Glow[i] += (glows - Glow[i]) * 0.5f * share;
            }
    }
}
