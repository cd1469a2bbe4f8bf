using System.Numerics;
using Sandarac.Specimen.Randomness;

namespace Sandarac.Specimen.Scene;

/// <summary>What the painter looks at: a ferry lying on tidal flats under a broken sky, light from the upper left. Positions in mm on the
/// plane.</summary>
internal sealed class Motif(int seed)
{
    /// <summary>Height of the horizon below the upper edge, mm.</summary>
    public const float Horizon = 232;

    /// <summary>Where the flats begin.</summary>
    public const float Waterline = 247;

    private static readonly Vector2 TowardsLight = Vector2.Normalize(new Vector2(-0.75f, -0.66f));

    /// <summary>Cloud masses: centre, radii, weight.</summary>
    private static readonly (float X, float Y, float Rx, float Ry, float Weight)[] Masses =
    [
        (388, 92, 92, 52, 1.15f), (330, 128, 88, 34, 1.0f), (455, 132, 80, 36, 1.0f), (372, 52, 48, 30, 0.8f),
        (96, 148, 96, 24, 0.9f), (176, 166, 86, 17, 0.8f), (60, 40, 70, 14, 0.45f), (200, 62, 66, 12, 0.40f), (150, 203, 120, 7, 0.42f),
            (440, 200, 80, 7, 0.45f),
    ];

    /// <summary>How deep in cloud a place is: below 0 open sky, 1 the middle of a mass.</summary>
    public float Cloud(Vector2 p)
    {
        var deepest = -1f;
        foreach (var m in Masses)
        {
            var (dx, dy) = ((p.X - m.X) / m.Rx, (p.Y - m.Y) / m.Ry);
            // Flat below, domed above, as heaped clouds are.
            if (dy > 0) dy *= 1.5f;
            deepest = MathF.Max(deepest, m.Weight * (1 - dx * dx - dy * dy));
        }
        return MathF.Max(deepest, -0.8f) + 0.62f * Noise.Fractal(seed + 11, p.X / 46, p.Y / 30, 4);
    }

    /// <summary>0 in a cloud's shadow, 1 on the side that faces the sun.</summary>
    public float CloudLight(Vector2 p)
    {
        var rise = Cloud(p) - Cloud(p + 15 * TowardsLight);
        return Math.Clamp(0.34f + 1.05f * rise, 0, 1);
    }

    /// <summary>Direction along a cloud's contour, radians.</summary>
    public float CloudContour(Vector2 p)
    {
        var (gx, gy) = (Cloud(p + new Vector2(5, 0)) - Cloud(p - new Vector2(5, 0)), Cloud(p + new Vector2(0, 5))
            - Cloud(p - new Vector2(0, 5)));
        return MathF.Atan2(gx + 1e-3f, -gy - 0.02f);
    }

    public static Vector3 OpenSky(Vector2 p)
    {
        var t = p.Y / Horizon;
        var c = t < 0.55f
            ? Hue.Mix(Hue.Of(0x667F97), Hue.Of(0x98AAB3), t / 0.55f)
            : Hue.Mix(Hue.Of(0x98AAB3), Hue.Of(0xE8D6B2), MathF.Pow((t - 0.55f) / 0.45f, 1.1f));
        return Hue.Mix(c, Hue.Of(0xF0DDB4), 0.35f * MathF.Exp(-(p - new Vector2(150, 205)).LengthSquared() / 9000));
    }

    public Vector3 CloudColour(Vector2 p)
    {
        var light = CloudLight(p);
        var low = Shape.Step(60, 190, p.Y);
        var shade = Hue.Mix(Hue.Of(0x7F858E), Hue.Of(0xA79C92), low);
        var middle = Hue.Of(0xC8BFB2);
        return light < 0.45f ? Hue.Mix(shade, middle, light / 0.45f) : Hue.Mix(middle, Hue.Of(0xF1E4C9), (light - 0.45f) / 0.4f);
    }

    /// <summary>How much closer than the horizon a place on the flats is, 0 to 1.</summary>
    public static float Near(float y) => Math.Clamp((y - Waterline) / (float)(SpecimenPainting.HeightMm - Waterline), 0, 1);

    /// <summary>Above 0 where water stands on the flats.</summary>
    public float Pool(Vector2 p)
    {
        var near = Near(p.Y);
        var depth = 1 / (0.12f + near);
        var channel = 0.55f * MathF.Exp(-MathF.Pow((p.Y - 292 - 0.10f * (p.X - 120)) / 11, 2)) * (1 - Shape.Step(215, 270, p.X));
        var front = 0.50f * MathF.Exp(-MathF.Pow((p.Y - 352) / 15, 2) - MathF.Pow((p.X - 330) / 120, 2));
        var (left, top, right, bottom) = DrawnPassages.Skiff;
        // The skiff's cover stays sand: no water was painted there.
        var skiff = Shape.Step(left - 18, left, p.X) * (1 - Shape.Step(right, right + 18, p.X)) * Shape.Step(top - 8, top, p.Y)
            * (1 - Shape.Step(bottom, bottom + 8, p.Y));
        return -0.8f * skiff + Noise.Fractal(seed + 29, p.X * (0.010f + 0.004f * depth), 3.4f * depth, 3) - 0.20f + channel + front;
    }

    public Vector3 Sand(Vector2 p)
    {
        var near = Near(p.Y);
        var c = Hue.Mix(Hue.Of(0xC2AE8C), Hue.Of(0x8A6B47), MathF.Pow(near, 0.8f));
        var patch = Noise.Fractal(seed + 31, p.X / 70, p.Y / 16, 3);
        c = Hue.Mix(c, Hue.Of(0x6B543C), 0.75f * Shape.Step(0.05f, 0.55f, patch) * (0.4f + near));
        return Hue.Mix(c, Hue.Of(0xD9C49A), 0.7f * Shape.Step(0.1f, 0.5f, -patch) * (1 - 0.5f * near));
    }

    /// <summary>A pool shows the sky that stands as high above the horizon as the pool lies below it.</summary>
    public Vector3 Water(Vector2 p)
    {
        var mirrored = new Vector2(p.X, Horizon - 0.95f * (p.Y - Horizon));
        var sky = Cloud(mirrored) > 0.15f ? CloudColour(mirrored) : OpenSky(mirrored);
        return Hue.Mix(sky, Hue.Of(0x8F8778), 0.22f);
    }
}
