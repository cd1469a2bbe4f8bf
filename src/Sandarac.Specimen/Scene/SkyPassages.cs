using System.Numerics;
using Sandarac.Specimen.Optics;
using Sandarac.Specimen.Randomness;
using Sandarac.Specimen.Strokes;

namespace Sandarac.Specimen.Scene;

/// <summary>The sky: thin blue first, then clouds from their shadows to their lights, the last ones thick.</summary>
internal sealed class SkyPassages(Motif motif, int seed)
{
    private static readonly (float, float, float, float) Sky = (-15, -12, 533, Motif.Horizon + 1);

    public Passage LayIn()
    {
        var hand = new Hand(seed, 101);
        var how = new Handling { WidthMm = 15, LoadUm = 15, RunOutMm = 80, Furrow = 0.6f, Streak = 0.14f, PickUp = 0.15f };
        hand.Cover(Sky, (20, 7.5f), p => hand.Dice.Next() < 0.05 ? null : new Mark(
            (float)hand.Dice.Between(34, 72), q => -0.30f + 0.5f * Noise.Fractal(seed + 41, q.X / 90, q.Y / 60, 2),
                SkyPaint(Motif.OpenSky(p), ref hand.Dice),
            how with { LoadUm = (float)hand.Dice.Between(9, 20), WidthMm = (float)hand.Dice.Between(11, 17) }));
        return new Passage("sky lay-in", "thin first colour of the sky, priming left open between marks", hand.Strokes);
    }

    public Passage Clouds()
    {
        var hand = new Hand(seed, 102);
        var how = new Handling { WidthMm = 9, LoadUm = 26, RunOutMm = 55, Furrow = 0.7f, Streak = 0.16f, PickUp = 0.3f, PauseMm = 28 };
        hand.Cover(Sky, (10, 5.5f), p =>
        {
            var deep = motif.Cloud(p);
            if (deep < 0.12f || deep < 0.3f && hand.Dice.Next() < 0.4) return null;
            return new Mark((float)hand.Dice.Between(14, 34), Direction, SkyPaint(motif.CloudColour(p), ref hand.Dice),
                how with { WidthMm = (float)hand.Dice.Between(6, 11), LoadUm = 16 + 26 * motif.CloudLight(p) });
        });
        return new Passage("clouds", "body of the clouds, wet in wet", hand.Strokes);
    }

    public Passage Lights()
    {
        var hand = new Hand(seed, 103);
        var how = new Handling { WidthMm = 5.5f, LoadUm = 75, RunOutMm = 32, Furrow = 0.75f, Streak = 0.08f, PickUp = 0.12f,
            SideRidge = 0.8f, PauseMm = 14 };
        hand.Cover(Sky, (7.5f, 4.2f), p =>
        {
            var light = motif.CloudLight(p);
            if (motif.Cloud(p) < 0.1f || light < 0.66f || hand.Dice.Next() > light) return null;
            var colour = Hue.Mix(motif.CloudColour(p), Hue.Of(0xF8ECD2), 0.5f);
            return new Mark((float)hand.Dice.Between(6, 17), Direction, SkyPaint(colour, ref hand.Dice),
                how with { WidthMm = (float)hand.Dice.Between(3, 7.5), LoadUm = 45 + 95 * (light - 0.5f) });
        });
        return new Passage("cloud lights", "thick lead white where the sun strikes", hand.Strokes);
    }

    private float Direction(Vector2 q)
    {
        var contour = motif.CloudContour(q);
        return contour + 0.5f * Noise.Fractal(seed + 43, q.X / 24, q.Y / 24, 2);
    }

    /// <summary>Smalt in lead white: the lighter, the more white; warm tones have ochre in place of smalt.</summary>
    private static Paint SkyPaint(Vector3 aim, ref Dice dice)
    {
        var colour = Hue.Vary(aim, ref dice, 0.020f, 0.010f);
        var tint = colour.X > colour.Z ? Bodies.Ochre : Bodies.Smalt;
        return tint.Mixed(Bodies.LeadWhite, Shape.Step(0.30f, 0.92f, Hue.Light(colour))).Tinted(Hue.Linear(colour));
    }
}
