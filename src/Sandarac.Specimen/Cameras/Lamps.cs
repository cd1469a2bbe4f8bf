using Sandarac.Specimen.Lighting;

namespace Sandarac.Specimen.Cameras;

/// <summary>How lamps fall off over the plane: inverse square and cosine of a point lamp (Lambert), 1 at the plane's centre.</summary>
internal static class Lamps
{
    /// <summary>One lamp at a distance (mm) from the plane's centre.</summary>
    public static LampField Single(Lamp lamp, float distanceMm)
    {
        var (x, y, z) = lamp.Direction;
        return Point(x * distanceMm, y * distanceMm, z * distanceMm);
    }

    /// <summary>Two lamps, left and right, that do not quite agree.</summary>
    public static LampField Pair(float distanceMm, float heightMm, float leftShare)
    {
        var (left, right) = (Point(-distanceMm, -60, heightMm), Point(distanceMm, 40, heightMm));
        return (x, y) => leftShare * left(x, y) + (1 - leftShare) * right(x, y);
    }

    private static LampField Point(float lampX, float lampY, float lampZ)
    {
        var square = lampX * lampX + lampY * lampY + lampZ * lampZ;
        return (x, y) =>
        {
            var (dx, dy) = (x - (float)SpecimenPainting.WidthMm / 2 - lampX, y - (float)SpecimenPainting.HeightMm / 2 - lampY);
            var ratio = square / (dx * dx + dy * dy + lampZ * lampZ);
            return ratio * MathF.Sqrt(ratio);
        };
    }
}
