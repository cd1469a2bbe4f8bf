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
        foreach (var deep in Enumerable.Range(0, 5))
        {
            var share = deep / 5f;
            Vector2[] ridge = [new(292 + 4 * deep, 234), new(330, 229), new(362, 226), new(398, 220), new(430, 222), new(470, 216),
                new(530, 218)];
            var down = ridge.Select(p => new Vector2(p.X, p.Y + share * (236 - p.Y) + (float)hand.Dice.Bell(0, 0.3))).ToArray();
            for (var from = 0; from < 4; from++)
            {
                // No two marks begin above one another.
                var start = Vector2.Lerp(down[from], down[from + 1], (float)hand.Dice.Between(0, 0.9));
                hand.Mark(Earth(Hue.Mix(Hue.Of(0x84919B), Hue.Of(0x6A6F60), from / 4f + 0.2f * share), ref hand.Dice),
                    thin with { WidthMm = 3.4f, RunOutMm = 160 }, [start, .. down[(from + 1)..(from + 4)]]);
            }
        }
        hand.Mark(Earth(Hue.Of(0x8C99A4), ref hand.Dice), thin with { WidthMm = 3, RunOutMm = 300 }, new(-10, 231), new(60, 229.5f),
            new(150, 232), new(222, 234));
        hand.Mark(Earth(Hue.Of(0x93A0A8), ref hand.Dice), thin with { WidthMm = 2.4f, RunOutMm = 300 }, new(-10, 234), new(80, 233.5f),
            new(214, 235));
        var sea = thin with { WidthMm = 4.5f, LoadUm = 26, RunOutMm = 70 };
        hand.Cover((-10, 235.5f, 528, Motif.Waterline + 1), (22, 2.4f), p => new Mark((float)hand.Dice.Between(22, 60), _ => 0.006f,
            Watery(Hue.Mix(Hue.Of(0x8DA0A6), Hue.Of(0xC9C6B4), 0.5f + 0.5f * Noise.Fractal(seed + 51, p.X / 60, p.Y / 3, 2)),
                ref hand.Dice), sea));
        return new Passage("far shore and sea", "thin greys and blues, drawn along the horizon", hand.Strokes);
    }

    public Passage LayIn()
    {
        var hand = new Hand(seed, 202);
        var how = new Handling { WidthMm = 13, LoadUm = 11, RunOutMm = 75, Furrow = 0.75f, Streak = 0.25f, PickUp = 0.05f };
        hand.Cover(Flats, (26, 6.5f), p => hand.Dice.Next() < 0.14 ? null : new Mark((float)hand.Dice.Between(35, 90), Level(ref hand.Dice),
            Earth(motif.Sand(p), ref hand.Dice), how with { WidthMm = 5 + 10 * Motif.Near(p.Y) * (float)hand.Dice.Between(0.7, 1.3),
                LoadUm = (float)hand.Dice.Between(5, 14) }));
        return new Passage("flats lay-in", "watery earth colours; the priming glints through", hand.Strokes);
    }

    public Passage Pools()
    {
        var hand = new Hand(seed, 203);
        var how = new Handling { WidthMm = 6, LoadUm = 30, RunOutMm = 60, Furrow = 0.55f, Streak = 0.10f, PickUp = 0.18f, PauseMm = 35 };
        hand.Cover(Flats, (11, 3.2f), p => motif.Pool(p) < 0.03f ? null : new Mark((float)hand.Dice.Between(12, 46), Level(ref hand.Dice),
            Watery(motif.Water(p), ref hand.Dice), how with
            {
                WidthMm = (1.3f + 6 * Motif.Near(p.Y)) * (float)hand.Dice.Between(0.6, 1.2), LoadUm = (float)hand.Dice.Between(14, 36),
                    PickUp = 0.5f - 0.3f * Motif.Near(p.Y),
            }));
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
            var colour = motif.Sand(p) + new Vector3(pool > -0.10f ? -0.13f * (0.3f + near)
                : (float)hand.Dice.Bell(0.02, 0.02 + 0.035 * near));
            return new Mark((float)hand.Dice.Between(14, 44), Level(ref hand.Dice), Earth(colour, ref hand.Dice),
                how with { WidthMm = 1.2f + 7 * near * (float)hand.Dice.Between(0.4, 1.1),
                    LoadUm = (float)hand.Dice.Between(12, 20 + 25 * near), PickUp = 0.45f - 0.35f * near });
        });
        Wrack(hand, how);
        return new Passage("sands", "ridges of sand and weed, the banks of the pools", hand.Strokes);
    }

    /// <summary>Weed left by the tide: short dabs of a nearly dry brush along a drifting line.</summary>
    private static void Wrack(Hand hand, Handling how)
    {
        foreach (var (x, y, length) in new[] { (4f, 398f, 170f), (190f, 405f, 130f), (400f, 402f, 120f), (250f, 368f, 80f),
            (440f, 330f, 70f) })
            for (var along = 0f; along < length; along += (float)hand.Dice.Between(1.5, 5))
            {
                var at = new Vector2(x + along, y + 3 * MathF.Sin(along / 17 + x) + (float)hand.Dice.Bell(0, 1.6));
                var reach = (float)hand.Dice.Between(2, 8);
                hand.Mark(Earth(Hue.Mix(Hue.Of(0x463826), Hue.Of(0x67583C), (float)hand.Dice.Next()), ref hand.Dice),
                    how with { WidthMm = (float)hand.Dice.Between(1, 3.2), LoadUm = 16, RunOutMm = 9, PickUp = 0.2f, PauseMm = 0,
                        Ragged = 0.9f },
                    at, at + new Vector2(reach * 0.5f, (float)hand.Dice.Bell(-0.6, 0.7)), at
                        + new Vector2(reach, (float)hand.Dice.Bell(0, 0.8)));
            }
    }

    /// <summary>Nearly level, each mark a little off on its own.</summary>
    private Func<Vector2, float> Level(ref Dice dice)
    {
        var tilt = (float)dice.Bell(-0.02, 0.045);
        return q => tilt + 0.16f * Noise.Fractal(seed + 53, q.X / 70, q.Y / 25, 2);
    }

    private static Paint Earth(Vector3 aim, ref Dice dice)
    {
        var colour = Hue.Vary(aim, ref dice, 0.022f, 0.014f);
        var light = Hue.Light(colour);
        return Bodies.Umber.Mixed(Bodies.Ochre, Shape.Step(0.2f, 0.55f, light)).Mixed(Bodies.LeadWhite, 0.6f
            * Shape.Step(0.5f, 0.9f, light)).Tinted(Hue.Linear(colour));
    }

    private static Paint Watery(Vector3 aim, ref Dice dice)
    {
        var colour = Hue.Vary(aim, ref dice, 0.020f, 0.010f);
        return Bodies.Smalt.Mixed(Bodies.LeadWhite, Shape.Step(0.3f, 0.95f, Hue.Light(colour))).Tinted(Hue.Linear(colour));
    }
}
