using System.Numerics;
using Sandarac.Specimen.Optics;
using Sandarac.Specimen.Randomness;
using Sandarac.Specimen.Strokes;

namespace Sandarac.Specimen.Scene;

/// <summary>The ferry from its drawn contours to its last accents.</summary>
internal sealed class FerryPassages(int seed)
{
    private static readonly Handling Line = new() { WidthMm = 1.3f, LoadUm = 16, RunOutMm = 420, Furrow = 0.2f, Streak = 0.15f, PickUp = 0,
        SideRidge = 0.2f, Ragged = 0.3f };
    private static readonly Handling Body = new() { WidthMm = 5, LoadUm = 28, RunOutMm = 70, Furrow = 0.7f, Streak = 0.28f, PickUp = 0.15f,
        PauseMm = 30 };

    /// <summary>Brush contours in thin brown over the lay-in.</summary>
    public Passage Contours()
    {
        var hand = new Hand(seed, 301);
        var brown = Bodies.Umber.Tinted(0x4A3222);
        foreach (var line in new[] { FerryShape.Sheer, FerryShape.FarSheer, FerryShape.Keel, FerryShape.Sail,
            FerryShape.Spar }) hand.Mark(brown, Line with { WidthMm = (float)hand.Dice.Between(1, 2) }, line);
        hand.Mark(brown, Line with { WidthMm = 1.8f }, FerryShape.MastFoot, FerryShape.MastHead);
        foreach (var p in PostPassages.Places) hand.Mark(brown, Line, new(p.X - 0.4f * p.Width, p.Foot),
            new(p.X - 0.4f * p.Width + p.Lean, p.Foot - p.Tall));
        hand.Mark(brown, Line, new(0, 231), new(120, 230), new(215, 234), new(300, 233), new(398, 219), new(518, 216));
        return new Passage("brush contours", "outlines of boat, posts and shore drawn with a thin brush", hand.Strokes);
    }

    public Passage Hull()
    {
        var hand = new Hand(seed, 302);
        Shadow(hand);
        hand.Fill(FerryShape.Inside, 0.02f, 3.2f, p => Wood(Hue.Mix(Hue.Of(0x5B3F28), Hue.Of(0x9A7346), (p.X - 240) / 140), ref hand.Dice),
            Body with { WidthMm = 4 });
        for (var i = 0; i < 9; i++)
        {
            var share = (i + 0.5f) / 9;
            var dark = Hue.Mix(Hue.Of(0x4B3424), Hue.Of(0x241A15), share * 1.1f);
            hand.Mark(Wood(dark, ref hand.Dice), Body with { WidthMm = 5.2f, RunOutMm = 330, PickUp = 0.05f }, FerryShape.Strake(share));
        }
        hand.Mark(Bodies.RedEarth.Mixed(Bodies.Vermilion, 0.25f).Tinted(0x93402C), Body with { WidthMm = 3, LoadUm = 36, RunOutMm = 190 },
            FerryShape.Strake(0.12f));
        hand.Mark(Wood(Hue.Of(0x7D5A38), ref hand.Dice), Body with { WidthMm = 1.8f, LoadUm = 30, RunOutMm = 120, PickUp = 0 },
            FerryShape.Strake(0.33f)[..5]);
        hand.Mark(Wood(Hue.Of(0x6B4B30), ref hand.Dice), Body with { WidthMm = 1.4f, LoadUm = 26, RunOutMm = 110, PickUp = 0 },
            FerryShape.Strake(0.58f)[1..5]);
        foreach (var x in new[] { 258f, 282f, 310f, 340f })
            hand.Mark(Wood(Hue.Of(0x8F6A42), ref hand.Dice), Body with { WidthMm = 2.6f, LoadUm = 34 }, new(x, 270), new(x + 5, 284));
        foreach (var (x, y, length, turns) in new[] { (258f, 329f, 128f, 34), (270f, 335f, 96f, 27), (296f, 341f, 64f, 19) })
            hand.Add(Paths.Zigzag(new(x, y), new(x + length, y + 2), 2.2f, turns, 1, new Dice(seed, 390 + (int)x)),
                Wood(Hue.Of(0x6A523A), ref hand.Dice),
                Body with { WidthMm = 3.2f, LoadUm = 13, RunOutMm = 1.8f * length, PickUp = 0.3f, PauseMm = 0 });
        return new Passage("hull", "tarred planks, red wale, thwarts", hand.Strokes);
    }

    public Passage Rig()
    {
        var hand = new Hand(seed, 303);
        hand.Fill(FerryShape.Sail, 1.05f, 3.2f, p => Wood(Hue.Mix(Hue.Of(0xC28A52), Hue.Of(0x7A4428), (p.X - 296) / 62 + 0.25f
            * Noise.At(seed, p.X / 9, p.Y / 20)), ref hand.Dice),
            Body with { WidthMm = 5.5f, LoadUm = 34, RunOutMm = 170 });
        foreach (var fold in new[] { (302f, 168f, 305f, 262f), (314f, 172f, 322f, 254f), (326f, 178f, 340f, 248f),
            (300f, 152f, 346f, 236f) })
            hand.Mark(Wood(Hue.Of(0x5E3522), ref hand.Dice), Body with { WidthMm = 2.2f, LoadUm = 18 }, new(fold.Item1, fold.Item2),
                new((fold.Item1 + fold.Item3) / 2 - 4, (fold.Item2 + fold.Item4) / 2), new(fold.Item3, fold.Item4));
        foreach (var fold in new[] { (295f, 160f, 299f, 246f), (308f, 160f, 317f, 240f), (322f, 170f, 335f, 236f) })
            hand.Mark(Wood(Hue.Of(0xDDB37A), ref hand.Dice), Body with { WidthMm = 2.4f, LoadUm = 60, RunOutMm = 60 },
                new(fold.Item1, fold.Item2), new((fold.Item1 + fold.Item3) / 2 - 3, (fold.Item2 + fold.Item4) / 2),
                new(fold.Item3, fold.Item4));
        hand.Mark(Wood(Hue.Of(0x4A3324), ref hand.Dice), Body with { WidthMm = 3.6f, LoadUm = 36, RunOutMm = 260, PickUp = 0.03f },
            FerryShape.MastFoot, FerryShape.MastHead);
        hand.Mark(Wood(Hue.Of(0x6A4A30), ref hand.Dice), Body with { WidthMm = 2.4f, LoadUm = 34, RunOutMm = 220, PickUp = 0.03f },
            FerryShape.Spar);
        hand.Mark(Wood(Hue.Of(0xB08A58), ref hand.Dice), Line with { WidthMm = 1.1f, LoadUm = 45, RunOutMm = 110 }, FerryShape.MastFoot
            - new Vector2(1.2f, 60), FerryShape.MastHead - new Vector2(1.2f, -6));
        Ropes(hand);
        return new Passage("sail and rig", "mast, brailed sail, spar, stays and pennant", hand.Strokes);
    }

    private static void Shadow(Hand hand)
    {
        Vector2[] shade = [new(236, 312), new(300, 320), (new(372, 306)), new(428, 312), new(440, 320), new(400, 330), new(320, 336),
            new(256, 328)];
        hand.Fill(shade, 0.02f, 3, p => Wood(Hue.Mix(Hue.Of(0x3C2E22), Hue.Of(0x66503A), (p.X - 300) / 140), ref hand.Dice),
            Body with { WidthMm = 5, LoadUm = 20, PickUp = 0.25f });
    }

    private static void Ropes(Hand hand)
    {
        var rope = Bodies.Umber.Tinted(0x3E2C20);
        var thin = Line with { WidthMm = 0.8f, LoadUm = 20, RunOutMm = 260, Ragged = 0.2f };
        hand.Mark(rope, thin, FerryShape.MastHead + new Vector2(0, 5), new(252, 184), new(224, 262));
        hand.Mark(rope, thin, FerryShape.MastHead + new Vector2(0, 5), new(336, 176), new(391, 256));
        hand.Mark(rope, thin, FerryShape.MastHead + new Vector2(0, 14), new(272, 200), new(262, 276));
        hand.Mark(rope, thin with { WidthMm = 1.1f }, new(391, 262), new(420, 300), new(452, 330), new(486, 342));
        hand.Mark(rope, Line with { WidthMm = 2.2f, LoadUm = 40 }, new(478, 334), new(486, 343), new(494, 336));
        hand.Mark(rope, Line with { WidthMm = 1.8f, LoadUm = 40 }, new(486, 343), new(480, 322));
        var pennant = Bodies.Vermilion.Tinted(0xB5402C);
        hand.Mark(pennant, Line with { WidthMm = 3.4f, LoadUm = 55, Furrow = 0.6f, RunOutMm = 40 }, FerryShape.MastHead, new(296, 108),
            new(307, 112), new(318, 109));
    }

    private static Paint Wood(Vector3 aim, ref Dice dice)
    {
        var colour = Hue.Vary(aim, ref dice, 0.018f, 0.012f);
        var light = Hue.Light(colour);
        // The deepest tones hold bone black: dark in luminescence although wholly original.
        return Bodies.Umber.Mixed(Bodies.Black, 0.35f * (1 - Shape.Step(0.08f, 0.22f, light))).Mixed(Bodies.Ochre,
            Shape.Step(0.2f, 0.5f, light))
            .Mixed(Bodies.LeadWhite, 0.5f * Shape.Step(0.5f, 0.85f, light)).Tinted(Hue.Linear(colour));
    }
}
