using System.Numerics;
using Sandarac.Specimen.Randomness;

namespace Sandarac.Specimen.Later;

/// <summary>Chooses what happens where: small losses and specks of graded sizes, scratches of graded widths, grime, and one part that yellows.</summary>
internal static class DamagePlan
{
    private const float Margin = 14, Apart = 14;

    private static readonly (DamageKind Kind, float WidthMm, int Count)[] Spots =
    [
        (DamageKind.Loss, 0.5f, 3), (DamageKind.Loss, 0.8f, 3), (DamageKind.Loss, 1.2f, 3), (DamageKind.Loss, 2, 3), (DamageKind.Loss, 3, 3),
        (DamageKind.Speck, 0.5f, 3), (DamageKind.Speck, 0.8f, 3), (DamageKind.Speck, 1.2f, 3),
        (DamageKind.Grime, 6, 2), (DamageKind.Grime, 12, 2), (DamageKind.Yellowing, 36, 1),
    ];

    private static readonly float[] ScratchWidths = [0.12f, 0.2f, 0.35f];

    public static IReadOnlyList<Damage> Of(int seed)
    {
        var (dice, damages) = (new Dice(seed ^ 0x0DA3A6E, 1), new List<Damage>());
        foreach (var (kind, width, count) in Spots.Reverse())
            for (var k = 0; k < count; k++)
            {
                var at = Free(ref dice, damages, width);
                damages.Add(new Damage(damages.Count + 1, kind, at, at, width, kind == DamageKind.Grime ? (float)dice.Between(0.4, 1) : 1));
            }
        foreach (var width in ScratchWidths)
        {
            var (from, turn, length) = (Free(ref dice, damages, 0), dice.Between(0, 2 * Math.PI), dice.Between(12, 28));
            var to = from + (float)length * new Vector2((float)Math.Cos(turn), (float)Math.Sin(turn));
            damages.Add(new Damage(damages.Count + 1, DamageKind.Scratch, from, Vector2.Clamp(to, new(Margin), new((float)SpecimenPainting.WidthMm - Margin, (float)SpecimenPainting.HeightMm - Margin)), width, 1));
        }
        return damages;
    }

    /// <summary>A place clear of the edges and of what has a place already.</summary>
    private static Vector2 Free(ref Dice dice, List<Damage> taken, float width)
    {
        while (true)
        {
            var edge = Margin + width / 2;
            var at = new Vector2((float)dice.Between(edge, SpecimenPainting.WidthMm - edge), (float)dice.Between(edge, SpecimenPainting.HeightMm - edge));
            if (taken.All(d => Math.Min(Vector2.Distance(at, d.From), Vector2.Distance(at, d.To)) > Apart + (width + d.WidthMm) / 2)) return at;
        }
    }
}
