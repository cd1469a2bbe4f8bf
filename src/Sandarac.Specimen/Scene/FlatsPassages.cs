using System.Numerics;
using Sandarac.Specimen.Optics;
using Sandarac.Specimen.Randomness;
using Sandarac.Specimen.Strokes;

namespace Sandarac.Specimen.Scene;

/// <summary>Far shore, sea and the flats with their pools.</summary>
internal sealed class FlatsPassages(Motif motif, int seed)
{
    private static readonly (float, float, float, float) Flats = (-10, Motif.Waterline, 528, 420);

    public Passage FarShore()
    {
        var hand = new Hand(seed, 201);
        var thin = new Handling { WidthMm = 4, LoadUm = 22, RunOutMm = 60, Furrow = 0.4f, PickUp = 0.25f };
        Vector2[] headland = [new(300, 233), new(330, 228), new(362, 225), new(398, 219), new(430, 221), new(470, 215), new(520, 217), new(520, 236), new(300, 236)];
        hand.Fill(headland, 0.03f, 2.6f, p => Earth(Hue.Mix(Hue.Of(0x7E8B97), Hue.Of(0x6E7466), (p.X - 300) / 220), ref hand.Dice), thin);
        Vector2[] low = [new(0, 229.5f), new(60, 228), new(150, 231), new(215, 233), new(215, 235), new(0, 235)];
        hand.Fill(low, 0.01f, 2, p => Earth(Hue.Mix(Hue.Of(0x8796A4), Hue.Of(0x9AA3A8), p.X / 215), ref hand.Dice), thin with { WidthMm = 2.6f });
        var sea = thin with { WidthMm = 4.5f, LoadUm = 26, RunOutMm = 70 };
        hand.Cover((-10, 235.5f, 528, Motif.Waterline + 1), (22, 2.4f), p => new Mark((float)hand.Dice.Between(22, 60), _ => 0.006f,
            Watery(Hue.Mix(Hue.Of(0x8DA0A6), Hue.Of(0xC9C6B4), 0.5f + 0.5f * Noise.Fractal(seed + 51, p.X / 60, p.Y / 3, 2)), ref hand.Dice), sea));
        return new Passage("far shore and sea", "thin greys and blues, drawn along the horizon", hand.Strokes);
    }

    public Passage LayIn()
    {
        var hand = new Hand(seed, 202);
        var how = new Handling { WidthMm = 13, LoadUm = 11, RunOutMm = 75, Furrow = 0.75f, Streak = 0.25f, PickUp = 0.05f };
        hand.Cover(Flats, (26, 6.5f), p => hand.Dice.Next() < 0.16 ? null : new Mark((float)hand.Dice.Between(35, 90), Level,
            Earth(motif.Sand(p), ref hand.Dice), how with { WidthMm = 5 + 10 * Motif.Near(p.Y) * (float)hand.Dice.Between(0.7, 1.3), LoadUm = (float)hand.Dice.Between(5, 14) }));
        return new Passage("flats lay-in", "watery earth colours; the priming glints through", hand.Strokes);
    }

    public Passage Pools()
    {
        var hand = new Hand(seed, 203);
        var how = new Handling { WidthMm = 6, LoadUm = 30, RunOutMm = 60, Furrow = 0.55f, Streak = 0.10f, PickUp = 0.18f, PauseMm = 35 };
        hand.Cover(Flats, (11, 3.2f), p => motif.Pool(p) < 0.03f ? null : new Mark((float)hand.Dice.Between(8, 38) * (0.45f + Motif.Near(p.Y)), Level,
            Watery(motif.Water(p), ref hand.Dice), how with { WidthMm = (1.8f + 5.5f * Motif.Near(p.Y)) * (float)hand.Dice.Between(0.6, 1.2), LoadUm = (float)hand.Dice.Between(16, 40) }));
        return new Passage("pools", "standing water, the sky's colours broken with grey", hand.Strokes);
    }

    public Passage Sands()
    {
        var hand = new Hand(seed, 204);
        var how = new Handling { WidthMm = 6, LoadUm = 32, RunOutMm = 40, Furrow = 0.8f, Streak = 0.3f, PickUp = 0.12f, PauseMm = 20 };
        hand.Cover(Flats, (13, 4.6f), p =>
        {
            var (pool, near) = (motif.Pool(p), Motif.Near(p.Y));
            if (pool > -0.03f || hand.Dice.Next() < 0.45) return null;
            var colour = motif.Sand(p) + new Vector3(pool > -0.12f ? -0.16f : (float)hand.Dice.Bell(0.02, 0.05));
            return new Mark((float)hand.Dice.Between(10, 30) * (0.5f + near), Level, Earth(colour, ref hand.Dice),
                how with { WidthMm = 1.5f + 7 * near * (float)hand.Dice.Between(0.4, 1.1), LoadUm = (float)hand.Dice.Between(14, 45) });
        });
        Wrack(hand, how);
        return new Passage("sands", "ridges of sand and weed, the banks of the pools", hand.Strokes);
    }

    /// <summary>Weed left by the tide: the brush goes to and fro without lifting, three times over, until it is dry.</summary>
    private void Wrack(Hand hand, Handling how)
    {
        foreach (var (x, y, length, reach) in new[] { (8f, 396f, 150f, 8f), (176f, 402f, 120f, 6f), (420f, 398f, 100f, 7f), (236f, 366f, 90f, 4f), (60f, 334f, 70f, 3f) })
            for (var pass = 0; pass < 3; pass++)
            {
                var from = new Vector2(x + (float)hand.Dice.Bell(0, 9), y + (float)hand.Dice.Bell(0, 2.5));
                var to = from + new Vector2(length * (float)hand.Dice.Between(0.5, 1), (float)hand.Dice.Bell(-2, 2));
                var path = Paths.Zigzag(from, to, reach * (float)hand.Dice.Between(0.3, 0.9), (int)(length / hand.Dice.Between(7, 13)), 1, new Dice(seed, 900 + (int)x + pass));
                hand.Add(path, Earth(Hue.Mix(Hue.Of(0x5A4A34), Hue.Of(0x6F5F42), (float)hand.Dice.Next()), ref hand.Dice),
                    how with { WidthMm = 0.55f * reach, LoadUm = 16, RunOutMm = 1.1f * length, PickUp = 0.25f, PauseMm = 12 });
            }
    }

    private float Level(Vector2 q) => 0.10f * Noise.Fractal(seed + 53, q.X / 80, q.Y / 25, 2) - 0.02f;

    private static Paint Earth(Vector3 aim, ref Dice dice)
    {
        var colour = Hue.Vary(aim, ref dice, 0.022f, 0.014f);
        var light = Hue.Light(colour);
        return Bodies.Umber.Mixed(Bodies.Ochre, Shape.Step(0.2f, 0.55f, light)).Mixed(Bodies.LeadWhite, 0.6f * Shape.Step(0.5f, 0.9f, light)).Tinted(Hue.Linear(colour));
    }

    private static Paint Watery(Vector3 aim, ref Dice dice)
    {
        var colour = Hue.Vary(aim, ref dice, 0.020f, 0.010f);
        return Bodies.Smalt.Mixed(Bodies.LeadWhite, Shape.Step(0.3f, 0.95f, Hue.Light(colour))).Tinted(Hue.Linear(colour));
    }
}
