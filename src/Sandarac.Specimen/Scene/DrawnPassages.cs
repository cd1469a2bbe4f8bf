using System.Numerics;
using Sandarac.Specimen.Optics;
using Sandarac.Specimen.Strokes;

namespace Sandarac.Specimen.Scene;

/// <summary>What lies under the picture: streaked priming, drawing in carbon, and the skiff the painter gave up.</summary>
internal sealed class DrawnPassages(int seed)
{
    /// <summary>Where the given-up skiff lay, mm: left, top, right, bottom.</summary>
    public static readonly (float Left, float Top, float Right, float Bottom) Skiff = (398, 340, 496, 392);

    /// <summary>A warm brown laid over the whole ground with a broad brush in a few long sweeps.</summary>
    public Passage Priming()
    {
        var hand = new Hand(seed, 501);
        var how = new Handling { WidthMm = 42, LoadUm = 7, RunOutMm = 620, Furrow = 0.9f, BristleMm = 0.8f, Streak = 0.30f, PickUp = 0,
            SideRidge = 0.3f, Ragged = 0.2f };
        var paint = Bodies.Ochre.Mixed(Bodies.Umber, 0.35f).Tinted(0x856C54);
        for (var y = -6f; y < 430; y += 21)
        {
            var (tilt, bend) = ((float)hand.Dice.Bell(-14, 5), (float)hand.Dice.Bell(0, 4));
            Vector2[] sweep = [new(-30, y - tilt), new(260, y + bend), new(548, y + tilt)];
            hand.Mark(paint, how with { LoadUm = (float)hand.Dice.Between(5, 9) }, hand.Dice.Next() < 0.5 ? sweep : [.. sweep.Reverse()]);
        }
        return new Passage("priming", "streaked warm priming, thin and uneven", hand.Strokes);
    }

    /// <summary>Search lines in a carbon-bearing material; the mast first stood further left, the sheer higher.</summary>
    public Passage Underdrawing()
    {
        var hand = new Hand(seed, 502);
        var line = new Handling { WidthMm = 1.0f, LoadUm = 5.5f, RunOutMm = 400, Furrow = 0.3f, Streak = 0.2f, PickUp = 0, SideRidge = 0,
            Ragged = 0.4f };
        void Draw(params Vector2[] through)
        {
            for (var pass = 0; pass < 2; pass++)
                hand.Mark(Bodies.Charcoal, line with { WidthMm = (float)hand.Dice.Between(0.7, 1.3) },
                    [.. through.Select(p => p + new Vector2((float)hand.Dice.Bell(0, 0.9), (float)hand.Dice.Bell(0, 0.7)))]);
        }
        Draw([.. FerryShape.Sheer.Select(p => p + new Vector2(-3, -7))]);
        Draw([.. FerryShape.Keel.Select(p => p + new Vector2(-2, 1))]);
        Draw([.. FerryShape.FarSheer.Select(p => p + new Vector2(-3, -6))]);
        Draw(FerryShape.MastFoot + new Vector2(-13, 0), FerryShape.MastHead + new Vector2(-24, -8));
        Draw([.. FerryShape.Spar.Select(p => p + new Vector2(-12, 4))]);
        Draw(new(0, 233.5f), new(170, 233), new(340, 233.5f), new(518, 233));
        Draw(new(290, 232), new(340, 224), new(400, 214), new(460, 210), new(518, 213));
        foreach (var p in PostPassages.Places) { Draw(new(p.X - 3, p.Foot + 2),
            new(p.X - 2 + p.Lean, p.Foot - p.Tall - 4)); Draw(new(p.X + p.Width - 3, p.Foot + 2),
            new(p.X + p.Width - 2 + p.Lean, p.Foot - p.Tall - 3)); }
        foreach (var (x, y, rx, ry) in new[] { (388f, 96f, 74f, 44f), (330f, 134f, 64f, 22f), (96f, 150f, 76f, 18f) })
            Draw([.. Enumerable.Range(0, 9).Select(i => new Vector2(x - rx * MathF.Cos(i * MathF.PI / 8), y - ry
                * MathF.Sin(i * MathF.PI / 8)))]);
        for (var i = 0; i < 16; i++) Draw(new(236 + i * 9, 296 + i % 3), new(230 + i * 9.2f, 318 + i % 4));
        return new Passage("underdrawing", "carbon-bearing search lines", hand.Strokes);
    }

    /// <summary>A skiff in lead white and black, painted and then covered.</summary>
    public Passage GivenUpSkiff()
    {
        var hand = new Hand(seed, 503);
        var how = new Handling { WidthMm = 4, LoadUm = 30, RunOutMm = 160, Furrow = 0.6f, PickUp = 0, Streak = 0.15f };
        Vector2[] hull = [new(402, 364), new(424, 371), new(456, 372), new(492, 358), new(484, 380), new(452, 387), new(420, 384)];
        hand.Fill(hull, 0.02f, 3, _ => Bodies.LeadWhite.Mixed(Bodies.Ochre, 0.1f).Tinted(0xD8CDB2), how);
        hand.Mark(Bodies.Black, how with { WidthMm = 2.2f, LoadUm = 22 }, new(401, 363), new(424, 371), new(456, 372), new(493, 357));
        hand.Mark(Bodies.Black, how with { WidthMm = 2, LoadUm = 22 }, new(402, 365), new(419, 385), new(452, 388), new(485, 380),
            new(492, 360));
        hand.Mark(Bodies.Black, how with { WidthMm = 1.8f, LoadUm = 20 }, new(446, 372), new(442, 343));
        hand.Mark(Bodies.LeadWhite, how with { WidthMm = 6, LoadUm = 40 }, new(446, 346), new(460, 356), new(466, 366));
        return new Passage("given-up skiff", "a small boat painted in lead white and bone black, later covered by the painter",
            hand.Strokes);
    }

    /// <summary>The sand that covers the skiff: hides in daylight, lets infrared and X-rays through.</summary>
    public Passage Cover()
    {
        var hand = new Hand(seed, 504);
        var how = new Handling { WidthMm = 11, LoadUm = 26, RunOutMm = 200, Furrow = 0.35f, Streak = 0.12f, PickUp = 0, Ragged = 0.6f };
        var (left, top, right, bottom) = Skiff;
        // Twice over: a gap would show the white beneath.
        for (var coat = 0; coat < 2; coat++)
            hand.Cover((left - 4, top - 8 - 3 * coat, right + 4, bottom + 4), (22, 7), _ =>
                new Mark((float)hand.Dice.Between(28, 44), _ => 0.02f,
            Bodies.Ochre.Mixed(Bodies.Umber, 0.25f).Tinted(Hue.Linear(Hue.Vary(Hue.Of(0x94744E), ref hand.Dice, 0.02f, 0.01f))),
                how with { LoadUm = (float)hand.Dice.Between(22, 32) }));
        return new Passage("skiff covered", "sand colour over the given-up skiff", hand.Strokes);
    }
}
