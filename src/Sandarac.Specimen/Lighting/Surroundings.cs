using System.Runtime.Intrinsics;
using Sandarac.Specimen.Cameras;
using Sandarac.Specimen.Randomness;

namespace Sandarac.Specimen.Lighting;

/// <summary>The copying stand: a dark grey board some 10 mm behind the painted face, on which the panel throws its shadow.</summary>
internal static class Surroundings
{
    private const float BehindMm = 10;

    /// <summary>The board under lamps, each with its share of the light.</summary>
    public static Radiance Board(float reflectance, params (Lamp Lamp, float Share)[] lamps) => (x, y) =>
    {
        var light = 0.04f;
        foreach (var (lamp, share) in lamps) light += share * Unshaded(x, y, lamp);
        var value = reflectance * light * (1 + 0.06f * Noise.At(4711, x / 0.8f, y / 0.8f));
        return Vector128.Create(value, value, value, 0);
    };

    /// <summary>0 in the panel's shadow, 1 outside it.</summary>
    private static float Unshaded(float x, float y, Lamp lamp)
    {
        var (lx, ly, lz) = lamp.Direction;
        var reach = Math.Min(BehindMm / lz, 22);
        var outside = Outside(x + lx * reach, y + ly * reach);
        return Shape.Step(-0.08f * reach, 0.08f * reach, outside);
    }

    /// <summary>Distance to the panel's rectangle, mm; negative inside.</summary>
    private static float Outside(float x, float y)
    {
        var (dx, dy) = (Math.Max(-x, x - (float)SpecimenPainting.WidthMm), Math.Max(-y, y - (float)SpecimenPainting.HeightMm));
        return Math.Max(dx, dy);
    }
}
