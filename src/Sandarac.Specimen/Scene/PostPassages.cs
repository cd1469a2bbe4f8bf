using System.Numerics;
using Sandarac.Specimen.Optics;
using Sandarac.Specimen.Randomness;
using Sandarac.Specimen.Strokes;

namespace Sandarac.Specimen.Scene;

/// <summary>Mooring posts, people, gulls: the small things, and the last lights.</summary>
internal sealed class PostPassages(Motif motif, int seed)
{
    /// <summary>Posts from near to far: middle of the foot, height, width and lean, mm.</summary>
    public static readonly (float X, float Foot, float Tall, float Width, float Lean)[] Places =
    [
        (46, 378, 112, 9, 4), (92, 340, 82, 7, -3), (127, 314, 62, 5.2f, 2), (153, 296, 47, 4, -1), (173, 283, 35, 3, 1.5f),
            (189, 273, 26, 2.3f, 0), (201, 266, 19, 1.8f, 0.5f), (211, 260, 13, 1.4f, 0),
    ];

    private static readonly Handling Firm = new() { WidthMm = 4, LoadUm = 40, RunOutMm = 300, Furrow = 0.75f, Streak = 0.3f, PickUp = 0.06f,
        PauseMm = 22, Ragged = 0.3f };

    public Passage Posts()
    {
        var hand = new Hand(seed, 401);
        foreach (var p in Places)
        {
            var far = 1 - p.Tall / 112;
            var dark = Tone(Hue.Mix(Hue.Of(0x33261C), Hue.Of(0x6E6256), far));
            var top = new Vector2(p.X + p.Lean, p.Foot - p.Tall);
            hand.Mark(dark, Firm with { WidthMm = p.Width }, new(p.X, p.Foot), new(p.X + 0.4f * p.Lean, p.Foot - 0.5f * p.Tall), top);
            hand.Mark(Tone(Hue.Mix(Hue.Of(0x9A8160), Hue.Of(0x9A9082), far)), Firm with { WidthMm = 0.32f * p.Width, LoadUm = 50,
                RunOutMm = 0.8f * p.Tall }, top + new Vector2(-0.30f * p.Width, 1), new(p.X - 0.3f * p.Width, p.Foot - 0.25f * p.Tall));
            hand.Mark(Tone(Hue.Of(0x3D3F2C)), Firm with { WidthMm = p.Width * 1.05f, LoadUm = 30 }, new(p.X, p.Foot + 0.3f),
                new(p.X + 0.12f * p.Lean, p.Foot - 0.2f * p.Tall));
            hand.Add(Paths.Zigzag(new(p.X, p.Foot + 1), new(p.X - 0.2f * p.Lean, p.Foot + 0.24f * p.Tall), 0.9f * p.Width, 9, 0.8f,
                new Dice(seed, 450 + (int)p.X)),
                Tone(Hue.Of(0x5B4B3A)), Firm with { WidthMm = 0.42f * p.Width, LoadUm = 15, PickUp = 0.3f, RunOutMm = 9 * p.Width,
                    PauseMm = 0 });
            hand.Mark(Tone(Hue.Of(0x54422F)), Firm with { WidthMm = 0.7f * p.Width, LoadUm = 13, PickUp = 0.35f, RunOutMm = 0.6f * p.Tall },
                new(p.X, p.Foot - 0.5f), new(p.X + 0.26f * p.Tall, p.Foot + 0.035f * p.Tall),
                new(p.X + 0.5f * p.Tall, p.Foot + 0.05f * p.Tall));
        }
        return new Passage("posts", "mooring posts, their shadows and reflections", hand.Strokes);
    }

    public Passage Figures()
    {
        var hand = new Hand(seed, 402);
        Person(hand, new(196, 322), 24, 0x8E3A2E, 0x3B3530);
        Person(hand, new(207, 325), 23, 0xC9BFA8, 0x4A4F5A);
        Person(hand, new(421, 305), 18, 0x44566B, 0x2F2A26);
        Person(hand, new(448, 268), 8, 0x5B4A40, 0x3B352F);
        Person(hand, new(455, 268), 7.5f, 0x8A3E30, 0x3B352F);
        Person(hand, new(270, 279), 20, 0x55483A, 0x332A24);
        hand.Mark(Tone(Hue.Of(0x8A6A42)), Firm with { WidthMm = 5, LoadUm = 50 }, new(214, 325), new(220, 326));
        foreach (var (x, y, size) in new[] { (142f, 98f, 6f), (158f, 88f, 4.4f), (206f, 204f, 3f), (218f, 199f, 2.4f), (262f, 208f, 2f) })
        {
            var tilt = (float)hand.Dice.Between(-0.5, 0.3) * size;
            hand.Mark(Tone(Hue.Of(0xECE6DA)), Firm with { WidthMm = 0.26f * size, LoadUm = 60, Ragged = 0.6f },
                new(x - size, y - 0.5f * size + tilt), new(x - 0.5f * size, y - 0.42f * size), new(x, y));
            hand.Mark(Tone(Hue.Of(0xD9D3C8)), Firm with { WidthMm = 0.22f * size, LoadUm = 50, Ragged = 0.6f }, new(x, y),
                new(x + 0.4f * size, y - 0.35f * size), new(x + 0.85f * size, y - 0.15f * size - tilt));
        }
        return new Passage("figures and gulls", "people, a basket, gulls", hand.Strokes);
    }

    /// <summary>The last touches: glints on the pools, light along sheer and posts.</summary>
    public Passage Accents()
    {
        var hand = new Hand(seed, 403);
        var touch = Firm with { WidthMm = 2, LoadUm = 130, RunOutMm = 22, SideRidge = 0.9f, PauseMm = 0 };
        hand.Cover((0, Motif.Waterline, 518, 405), (15, 5), p =>
        {
            if (p is { X: > 215 and < 400, Y: < 330 } || motif.Pool(p) < 0.16f || Motif.Near(p.Y) < 0.08f
                || hand.Dice.Next() > 0.10) return null;
            return new Mark((float)hand.Dice.Between(5, 18) * (0.5f + Motif.Near(p.Y)), _ => -0.01f, Light(Hue.Of(0xFBF1D8)),
                touch with { WidthMm = (float)hand.Dice.Between(0.6, 1.9), LoadUm = (float)hand.Dice.Between(70, 170), Ragged = 0.9f });
        });
        hand.Mark(Light(Hue.Of(0xE9CF9A)), touch with { WidthMm = 1.5f, RunOutMm = 90 }, FerryShape.Sheer[..5]);
        hand.Mark(Light(Hue.Of(0xF0DFB8)), touch with { WidthMm = 1.2f, RunOutMm = 60 }, FerryShape.FarSheer[1..4]);
        hand.Mark(Light(Hue.Of(0xF3E7C8)), touch with { WidthMm = 2.2f }, new(294, 146), new(297, 176), new(296, 206));
        foreach (var p in Places[..4]) hand.Mark(Light(Hue.Of(0xE6D2A8)), touch with { WidthMm = 0.22f * p.Width, LoadUm = 110 },
            new(p.X + p.Lean - 0.25f * p.Width, p.Foot - p.Tall + 0.5f), new(p.X + p.Lean + 0.25f * p.Width, p.Foot - p.Tall + 1.2f));
        foreach (var (x, y) in new[] { (392f, 221f), (401f, 217f), (416f, 219f), (52f, 228f), (60f, 228.5f) })
            hand.Mark(Light(Hue.Of(0xF2E6CC)), touch with { WidthMm = 1.8f, LoadUm = 60 }, new(x, y + 2), new(x + 3, y + 1.8f));
        hand.Mark(Light(Hue.Of(0xF4ECD8)), touch with { WidthMm = 2.2f, LoadUm = 70 }, new(408, 219), new(408.4f, 203));
        foreach (var x in new[] { 20f, 118f, 236f, 420f, 490f })
            hand.Mark(Light(Hue.Of(0xF7EDD4)), touch with { WidthMm = 1.1f, LoadUm = 50, RunOutMm = 40 }, new(x, 240),
                new(x + (float)hand.Dice.Between(14, 46), 240.3f));
        return new Passage("accents", "impasto lights, the last touches of the painter", hand.Strokes);
    }

    private static void Person(Hand hand, Vector2 foot, float tall, int coat, int legs)
    {
        var unit = tall / 20;
        Vector2 At(float x, float y) => foot + unit * new Vector2(x, -y);
        hand.Mark(Tone(Hue.Of(0x5A4A38)), Firm with { WidthMm = 3 * unit, LoadUm = 14, PickUp = 0.3f }, At(0, 0), At(13, -2.4f));
        hand.Mark(Tone(Hue.Of(legs)), Firm with { WidthMm = 2.2f * unit }, At(-0.8f, 8.5f), At(-1.4f, 0));
        hand.Mark(Tone(Hue.Of(legs)), Firm with { WidthMm = 2.2f * unit }, At(0.8f, 8.5f), At(1.6f, 0.2f));
        hand.Mark(Tone(Hue.Of(coat)), Firm with { WidthMm = 4.6f * unit, LoadUm = 55 }, At(0.2f, 16), At(0, 7.5f));
        hand.Mark(Tone(Hue.Of(coat) * 0.7f), Firm with { WidthMm = 1.6f * unit, LoadUm = 40 }, At(1.8f, 15), At(3.4f, 8.5f));
        hand.Mark(Tone(Hue.Of(0xC99A78)), Firm with { WidthMm = 2.4f * unit, LoadUm = 50, Ragged = 0.1f }, At(-0.4f, 18.2f),
            At(0.9f, 17.8f));
        hand.Mark(Tone(Hue.Of(0x2E2622)), Firm with { WidthMm = 1.8f * unit, LoadUm = 40, Ragged = 0.1f }, At(-1.5f, 19.6f),
            At(1.9f, 19.7f));
        hand.Mark(Tone(Hue.Of(0xE8D8B8)), Firm with { WidthMm = 0.9f * unit, LoadUm = 70 }, At(-1.6f, 15.6f), At(-1.8f, 11));
    }

    private static Paint Tone(Vector3 c)
    {
        var light = Hue.Light(c);
        var warm = c.X - c.Z;
        var body = warm > 0.28f && light < 0.5f ? Bodies.RedEarth : warm < 0.02f ? Bodies.Smalt
            : Bodies.Umber.Mixed(Bodies.Ochre, Shape.Step(0.25f, 0.5f, light));
        return body.Mixed(Bodies.Black, 0.3f * (1 - Shape.Step(0.1f, 0.24f, light))).Mixed(Bodies.LeadWhite, 0.85f
            * Shape.Step(0.5f, 0.9f, light)).Tinted(Hue.Linear(c));
    }

    private static Paint Light(Vector3 c) => Bodies.LeadTinYellow.Mixed(Bodies.LeadWhite, 0.8f).Tinted(Hue.Linear(c));
}
