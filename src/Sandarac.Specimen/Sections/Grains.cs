using System.Runtime.Intrinsics;
using Sandarac.Specimen.Optics;
using Sandarac.Specimen.Randomness;

namespace Sandarac.Specimen.Sections;

/// <summary>How a body's particles look under the microscope.</summary>
/// <param name="Body">Name of the body.</param>
/// <param name="FineUm">Diameter of most particles, um.</param>
/// <param name="CoarseUm">Diameter of the few largest.</param>
/// <param name="Filled">Share of the layer's area that they fill when the body is unmixed.</param>
/// <param name="Colour">sRGB.</param>
/// <param name="Angular">0 rounded, 1 splintery.</param>
internal sealed record Grain(string Body, float FineUm, float CoarseUm, float Filled, int Colour, float Angular)
{
    private static readonly Grain[] All =
    [
        new("chalk in glue", 3.2f, 14, 0.42f, 0xEFE9DC, 0.3f), new("lead white", 1.6f, 9, 0.45f, 0xFAF6EA, 0.2f),
            new("yellow ochre", 2.4f, 8, 0.30f, 0xB0792F, 0.4f),
        new("umber", 2.2f, 8, 0.30f, 0x5A3D22, 0.5f), new("red earth", 2.2f, 7, 0.30f, 0x8F3B22, 0.4f),
            new("bone black", 2.6f, 10, 0.25f, 0x15120F, 0.9f),
        new("smalt", 7, 22, 0.40f, 0x4E6FA8, 1), new("vermilion", 2.4f, 7, 0.35f, 0xC63A26, 0.5f),
            new("madder lake", 4, 12, 0.35f, 0xA83A48, 0.2f),
        new("lead-tin yellow", 2.8f, 10, 0.40f, 0xEAD67C, 0.3f), new("carbon black", 3, 14, 0.45f, 0x0E0D0C, 1),
            new("retouching, modern", 1.8f, 4, 0.35f, 0xE8E6E0, 0.2f),
    ];

    public static Grain? Of(string body) => All.FirstOrDefault(g => g.Body == body);
}

/// <summary>One particle: an ellipse with an uneven rim.</summary>
internal sealed record Particle(int Layer, string Body, float X, float Y, float DiameterUm, float Aspect, float AngleDegrees, float Shade,
    int Rim)
{
    /// <summary>Below 1 inside, at an offset (um) from its centre.</summary>
    public float Reach(float dx, float dy, float angular)
    {
        var (c, s) = (MathF.Cos(AngleDegrees * MathF.PI / 180), MathF.Sin(AngleDegrees * MathF.PI / 180));
        var (u, v) = ((c * dx + s * dy) / MathF.Sqrt(Aspect), (c * dy - s * dx) * MathF.Sqrt(Aspect));
        var corner = 1 + 0.28f * angular * Noise.Along(Rim, 3, 2.2f * MathF.Atan2(v, u));
        return 2 * MathF.Sqrt(u * u + v * v) / (DiameterUm * corner);
    }
}

/// <summary>Strews particles into the layers of a stack.</summary>
internal static class Strewing
{
    public static List<Particle> Of(Stack stack, int seed)
    {
        var particles = new List<Particle>();
        for (var n = 0; n < stack.Layers.Count; n++)
        {
            var (layer, under) = (stack.Layers[n], n > 0 ? stack.Layers[n - 1].Top : stack.Floor);
            foreach (var (body, share) in layer.Note.Paint.Recipe)
                if (Grain.Of(body) is { } grain) Strew(particles, n, grain, share, layer.Top, under,
                    new Dice(seed, 3000 + 40 * n + grain.Body.Length));
        }
        return particles;
    }

    private static void Strew(List<Particle> into, int layer, Grain grain, float share, float[] top, float[] under, Dice dice)
    {
        var area = top.Zip(under, (t, u) => Math.Max(0, t - u)).Sum() * Stack.StepUm;
        for (var filled = 0.0; filled < area * grain.Filled * share;)
        {
            // A few coarse ones among many fine: log-normal, cut at the coarsest.
            var diameter = Math.Min(grain.CoarseUm, grain.FineUm * (float)Math.Exp(dice.Bell(0, 0.55)));
            filled += Math.PI / 4 * diameter * diameter;
            var column = dice.Pick(top.Length);
            var (low, high) = (under[column] + 0.4f * diameter, top[column] - 0.4f * diameter);
            var (across, up) = (dice.Next(), dice.Next());
            if (high <= low) continue;
            into.Add(new Particle(layer, grain.Body, (column + (float)across) * Stack.StepUm, low + (float)up * (high - low), diameter,
                (float)dice.Between(1, 1.4 + grain.Angular), (float)dice.Between(0, 180), (float)dice.Bell(1, 0.16),
                    (int)dice.Between(0, 1e6)));
        }
    }

    public static Vector128<float> ColourOf(Particle p) => (Colour.FromHex(Grain.Of(p.Body)!.Colour) * p.Shade).WithElement(3, Backscatter.Of(p.Body));
}
