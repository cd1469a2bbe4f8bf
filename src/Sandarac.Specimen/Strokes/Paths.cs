using System.Numerics;
using Sandarac.Specimen.Randomness;

namespace Sandarac.Specimen.Strokes;

/// <summary>Ways a hand moves.</summary>
internal static class Paths
{
    /// <summary>A smooth curve through the points (Catmull-Rom), cut into pieces of about <paramref name="step"/> mm.</summary>
    public static Vector2[] Smooth(IReadOnlyList<Vector2> through, float step)
    {
        var result = new List<Vector2> { through[0] };
        for (var i = 0; i + 1 < through.Count; i++)
        {
            var (a, b, c, d) = (through[Math.Max(i - 1, 0)], through[i], through[i + 1], through[Math.Min(i + 2, through.Count - 1)]);
            var pieces = Math.Max(1, (int)MathF.Ceiling(Vector2.Distance(b, c) / step));
            for (var k = 1; k <= pieces; k++) result.Add(CatmullRom(a, b, c, d, (float)k / pieces));
        }
        return [.. result];
    }

    /// <summary>Follows a field of directions (radians) from a middle point both ways.</summary>
    public static Vector2[] Follow(Vector2 middle, float length, Func<Vector2, float> direction, float step)
    {
        var half = Math.Max(1, (int)MathF.Round(length / 2 / step));
        var points = new Vector2[2 * half + 1];
        points[half] = middle;
        for (var i = 1; i <= half; i++)
        {
            points[half + i] = points[half + i - 1] + step * Unit(direction(points[half + i - 1]));
            points[half - i] = points[half - i + 1] - step * Unit(direction(points[half - i + 1]));
        }
        return points;
    }

    /// <summary>To and fro between two ends while moving on: a zigzag without lifting the brush.</summary>
    public static Vector2[] Zigzag(Vector2 from, Vector2 to, float reach, int turns, float step, Dice dice)
    {
        var along = Vector2.Normalize(to - from);
        var side = new Vector2(-along.Y, along.X);
        var points = new List<Vector2>();
        for (var i = 0; i <= turns; i++)
        {
            var at = Vector2.Lerp(from, to, (float)i / turns);
            points.Add(at + side * reach * (i % 2 == 0 ? -0.5f : 0.5f) * (float)dice.Between(0.75, 1.2) + along * (float)dice.Bell(0, 0.8));
        }
        return Smooth(points, step);
    }

    public static Vector2 Unit(float angle) => new(MathF.Cos(angle), MathF.Sin(angle));

    private static Vector2 CatmullRom(Vector2 a, Vector2 b, Vector2 c, Vector2 d, float t) =>
        0.5f * (2 * b + (c - a) * t + (2 * a - 5 * b + 4 * c - d) * (t * t) + (3 * b - a - 3 * c + d) * (t * t * t));
}
