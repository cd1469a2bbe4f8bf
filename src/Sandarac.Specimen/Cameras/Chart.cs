using System.Runtime.Intrinsics;

namespace Sandarac.Specimen.Cameras;

/// <summary>
/// A target card of our own: 24 patches in four rows of six, CIELAB (D50, 2 degrees); a
/// scale of 300 mm with millimetre ticks beneath it; beside them a dark square turned by 5 degrees on a white one, for sharpness. No maker's chart
/// is copied.
/// </summary>
internal static class Chart
{
    private const float Left = 60, Top = 50, Patch = 56, Gap = 7, ScaleTop = 330;

    /// <summary>L*, a*, b* of the patches, row by row: a hue circle in six steps at three lightnesses, each row turned by 20 degrees, then
    /// greys.</summary>
    public static readonly (double L, double A, double B)[] Patches =
    [
        .. from row in Enumerable.Range(0, 3)
           from column in Enumerable.Range(0, 6)
           let hue = (60 * column + 20 * row + 25) * Math.PI / 180
           let chroma = row == 0 ? 22 : 27
           select (42.0 + 15 * row, Math.Round(chroma * Math.Cos(hue), 2), Math.Round(chroma * Math.Sin(hue), 2)),
        (95, 0, 0), (80, 0, 0), (65, 0, 0), (50, 0, 0), (35, 0, 0), (20, 0, 0),
    ];

    private static readonly Vector128<float>[] Linear = [.. Patches.Select(p => ToLinear(p.L, p.A, p.B))];
    private static readonly Vector128<float> Card = ToLinear(12, 0, 0), Table = Vector128.Create(0.05f, 0.05f, 0.05f, 0),
        White = ToLinear(92, 0, 0), Ink = ToLinear(15, 0, 0);

    /// <summary>Box of a patch on the plane, mm: left, top, side.</summary>
    public static (float X, float Y, float Side) Box(int patch) => (Left + patch % 6 * (Patch + Gap), Top + patch / 6 * (Patch + Gap),
        Patch);

    /// <summary>The scale's zero tick and length, mm.</summary>
    public static (float X, float Y, float LengthMm) Scale => (Left + 20, ScaleTop, 300);

    /// <summary>Middle and side of the turned square, mm, and the angle in degrees.</summary>
    public static (float X, float Y, float Side, float Degrees) Square => (482, 171, 40, 5);

    public static Vector128<float> At(float x, float y)
    {
        if (MathF.Max(MathF.Abs(x - Square.X), MathF.Abs(y - Square.Y)) < 0.7f * Square.Side) return InSquare(x, y) ? Ink : White;
        if (y is > ScaleTop and < ScaleTop + 24 && x is > Left + 12 and < Left + 20 + 308) return Tick(x - Left - 20, y - ScaleTop) ? Ink
            : White;
        var (column, row) = ((int)MathF.Floor((x - Left) / (Patch + Gap)), (int)MathF.Floor((y - Top) / (Patch + Gap)));
        if (column is < -1 or > 6 || x < Left - 14 || y < Top - 14 || x > Left + 6 * (Patch + Gap) + 7 || y > Top + 4 * (Patch + Gap)
            + 7) return Table;
        if (column is < 0 or > 5 || row is < 0 or > 3 || x < Left || y < Top) return Card;
        var inside = x - Left - column * (Patch + Gap) < Patch && y - Top - row * (Patch + Gap) < Patch;
        return inside ? Linear[row * 6 + column] : Card;
    }

    private static bool InSquare(float x, float y)
    {
        var (sin, cos) = MathF.SinCos(Square.Degrees * MathF.PI / 180);
        var (dx, dy) = (x - Square.X, y - Square.Y);
        return MathF.Max(MathF.Abs(dx * cos + dy * sin), MathF.Abs(dy * cos - dx * sin)) < Square.Side / 2;
    }

    /// <summary>Ticks 0.25 mm wide: 6 mm long each millimetre, 9 each five, 14 each ten.</summary>
    private static bool Tick(float along, float down)
    {
        var nearest = MathF.Round(along);
        if (nearest is < 0 or > 300 || MathF.Abs(along - nearest) > 0.125f) return false;
        return down < (nearest % 10 == 0 ? 14 : nearest % 5 == 0 ? 9 : 6);
    }

    /// <summary>CIE 15:2004 from L*a*b* to XYZ (D50 white 0.9642, 1, 0.8249), then to linear sRGB with the inverse of the sRGB profile's
    /// D50 matrix.</summary>
    private static Vector128<float> ToLinear(double l, double a, double b)
    {
        static double Inverse(double t) => t > 6.0 / 29 ? t * t * t : 3 * Math.Pow(6.0 / 29, 2) * (t - 4.0 / 29);
        var fy = (l + 16) / 116;
        var (x, y, z) = (0.9642 * Inverse(fy + a / 500), Inverse(fy), 0.8249 * Inverse(fy - b / 200));
        return Vector128.Create(
            (float)(3.1338561 * x - 1.6168667 * y - 0.4906146 * z),
            (float)(-0.9787684 * x + 1.9161415 * y + 0.0334540 * z),
            (float)(0.0719453 * x - 0.2289914 * y + 1.4052427 * z), 0);
    }
}
