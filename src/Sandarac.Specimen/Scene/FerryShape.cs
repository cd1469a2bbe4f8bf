using System.Numerics;

namespace Sandarac.Specimen.Scene;

/// <summary>Outlines of the beached ferry, a broad flat-bottomed boat with one mast, heeled a little to the left; mm on the
/// plane.</summary>
internal static class FerryShape
{
    public static readonly Vector2[] Hull =
        [new(222, 262), new(236, 275), new(262, 285), new(300, 290), new(336, 287), new(366, 276), new(390, 256), new(395, 259),
            new(387, 287), new(370, 306), new(338, 318), new(292, 322), new(252, 315), new(232, 297)];

    /// <summary>The inside that shows above the near side.</summary>
    public static readonly Vector2[] Inside =
        [new(222, 262), new(248, 266), new(300, 271), new(348, 267), new(390, 256), new(366, 276), new(336, 287), new(300, 290),
            new(262, 285), new(236, 275)];

    public static readonly Vector2[] Sheer = [new(221, 261), new(236, 275), new(262, 285), new(300, 290), new(336, 287), new(366, 276),
        new(392, 255)];

    public static readonly Vector2[] FarSheer = [new(221, 261), new(248, 266), new(300, 271), new(348, 267), new(392, 255)];

    public static readonly Vector2[] Keel = [new(223, 264), new(233, 298), new(253, 316), new(293, 323), new(339, 319), new(371, 307),
        new(388, 287), new(394, 258)];

    public static readonly Vector2 MastFoot = new(298, 281);
    public static readonly Vector2 MastHead = new(284, 112);

    /// <summary>The sail, brailed up to a spar that leans across the mast.</summary>
    public static readonly Vector2[] Sail =
        [new(289, 150), new(297, 138), new(318, 152), new(338, 182), new(352, 214), new(358, 246), new(351, 256), new(341, 250),
            new(330, 262), new(318, 258), new(305, 266), new(296, 256)];

    public static readonly Vector2[] Spar = [new(287, 236), new(312, 182), new(341, 118)];

    /// <summary>A plank strake at a share of the way from sheer (0) to keel (1).</summary>
    public static Vector2[] Strake(float share)
    {
        (Vector2 Top, Vector2 Low)[] frames =
            [(new(222, 263), new(232, 296)), (new(240, 277), new(253, 315)), (new(266, 286), new(276, 320)), (new(300, 290), new(302, 322)),
                (new(336, 287), new(338, 318)), (new(364, 277), new(369, 306)), (new(391, 257), new(389, 284))];
        return [.. frames.Select(f => Vector2.Lerp(f.Top, f.Low, share))];
    }
}
