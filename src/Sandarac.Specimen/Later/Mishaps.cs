using System.Numerics;
using System.Runtime.Intrinsics;
using Sandarac.Imaging.Colour;
using Sandarac.Specimen.Layers;
using Sandarac.Specimen.Optics;

namespace Sandarac.Specimen.Later;

/// <summary>Does to the finished painting what the plan says, and notes how far each place then differs.</summary>
internal sealed class Mishaps(Canvas canvas, int seed)
{
    private static readonly Vector128<float> Ground = Vector128.Create(0.78f, 0.74f, 0.66f, 0.85f), Dirt = Vector128.Create(0.035f, 0.028f, 0.022f, 0.12f);

    /// <summary>Number of the damage that fills at least a third of the pixel, 0 for none.</summary>
    public byte[] Numbers { get; } = new byte[canvas.Grid.Count];

    /// <summary>Does one thing and says what it did.</summary>
    public DamageDone Apply(Damage damage)
    {
        var (grid, box) = (canvas.Grid, damage.Box);
        var (left, right) = (Math.Max(0, (int)(box.Left / grid.MmPerPixel)), Math.Min(grid.Width - 1, (int)(box.Right / grid.MmPerPixel)));
        var (top, bottom) = (Math.Max(0, (int)(box.Top / grid.MmPerPixel)), Math.Min(grid.Height - 1, (int)(box.Bottom / grid.MmPerPixel)));
        var (shares, differences) = (0.0, new List<(float Share, double Difference)>());
        for (var y = top; y <= bottom; y++)
            for (var x = left; x <= right; x++)
            {
                var (i, share) = (y * grid.Width + x, damage.Share(new Vector2(grid.X(x), grid.Y(y)), grid.MmPerPixel, seed));
                if (share <= 0) continue;
                var before = Colour(canvas.Reflectance[i]);
                Change(i, damage, share * damage.Strength);
                shares += share;
                differences.Add((share, Distance(before, Colour(canvas.Reflectance[i]))));
                if (share >= 1 / 3f) Numbers[i] = (byte)damage.Number;
            }
        var most = differences.Count == 0 ? 0 : differences.Max(d => d.Share);
        return new DamageDone(damage, shares * grid.MmPerPixel * grid.MmPerPixel, differences.Where(d => d.Share >= 0.8f * most).Select(d => d.Difference).DefaultIfEmpty(0).Average());
    }

    private void Change(int i, Damage damage, float share)
    {
        var glow = canvas.Glow[i];
        switch (damage.Kind)
        {
            case DamageKind.Loss:
                Towards(i, Ground, share);
                canvas.Glow[i] = glow + (Bodies.Chalk.Luminescence.WithElement(3, Math.Min(glow[3], 0.4f)) - glow) * share;
                canvas.Height[i] -= 40 * share;
                break;
            case DamageKind.Speck:
                Towards(i, Dirt, 0.9f * share);
                canvas.Glow[i] = (glow * (1 - 0.9f * share)).WithElement(3, glow[3]);
                canvas.Height[i] += 25 * share;
                break;
            case DamageKind.Scratch:
                Towards(i, Ground, 0.5f * share);
                canvas.Height[i] -= 15 * share;
                break;
            case DamageKind.Grime:
                canvas.Reflectance[i] *= Vector128.Create(1 - 0.12f * share, 1 - 0.13f * share, 1 - 0.15f * share, 1);
                canvas.Glow[i] = (glow * (1 - 0.1f * share)).WithElement(3, glow[3]);
                break;
            default:
                canvas.Reflectance[i] *= Vector128.Create(1, 1 - 0.03f * share, 1 - 0.12f * share, 1);
                break;
        }
    }

    private void Towards(int i, Vector128<float> colour, float share) => canvas.Reflectance[i] += (colour - canvas.Reflectance[i]) * share;

    private static CieLab Colour(Vector128<float> reflectance) => CieLab.FromLinear(reflectance[0], reflectance[1], reflectance[2]);

    private static double Distance(CieLab a, CieLab b) => Math.Sqrt(Math.Pow(a.L - b.L, 2) + Math.Pow(a.A - b.A, 2) + Math.Pow(a.B - b.B, 2));
}

/// <summary>What a damage did.</summary>
/// <param name="Damage">The damage.</param>
/// <param name="AreaMm2">Shares of pixels that it fills, summed.</param>
/// <param name="Difference">CIELAB distance (1976) before and after in its core, mean.</param>
internal sealed record DamageDone(Damage Damage, double AreaMm2, double Difference);
