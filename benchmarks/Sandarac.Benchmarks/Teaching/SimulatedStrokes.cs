using System.Text.Json;

namespace Sandarac.Benchmarks.Teaching;

/// <summary>Short straight strokes that a person might draw within a phenomenon, at random.</summary>
internal static class SimulatedStrokes
{
    /// <summary>A stroke, pixels.</summary>
    /// <param name="Class">Its class.</param>
    /// <param name="X1">From here.</param>
    /// <param name="Y1">From here.</param>
    /// <param name="X2">To here.</param>
    /// <param name="Y2">To here.</param>
    public sealed record Stroke(string Class, double X1, double Y1, double X2, double Y2)
    {
        /// <summary>Distance of a place from the stroke, pixels.</summary>
        public double Distance(double x, double y)
        {
            var (dx, dy) = (X2 - X1, Y2 - Y1);
            var along = Math.Clamp(((x - X1) * dx + (y - Y1) * dy) / Math.Max(1e-9, dx * dx + dy * dy), 0, 1);
            return Math.Sqrt(Math.Pow(x - X1 - along * dx, 2) + Math.Pow(y - Y1 - along * dy, 2));
        }
    }

    /// <summary>Longest stroke, its half width, and the gap to the next one of its class, mm.</summary>
    private const double Longest = 15, HalfWidth = 0.5, Gap = 4;

    private const int Tries = 40_000;

    /// <summary>Draws strokes that lie wholly in a class; shorter ones where long ones find no room.</summary>
    /// <param name="name">The class.</param>
    /// <param name="truth">Its pixels.</param>
    /// <param name="width">Columns.</param>
    /// <param name="mmPerPixel">Size of a pixel.</param>
    /// <param name="count">Strokes wanted.</param>
    /// <param name="dice">Chance.</param>
    public static IReadOnlyList<Stroke> In(string name, bool[] truth, int width, double mmPerPixel, int count, Random dice)
    {
        int[] inside = [.. Enumerable.Range(0, truth.Length).Where(i => truth[i])];
        var drawn = new List<Stroke>();
        for (var t = 0; t < Tries && drawn.Count < count; t++)
        {
            var at = inside[dice.Next(inside.Length)];
            var (length, turn) = ((0.3 + 0.7 * dice.NextDouble()) * Longest / mmPerPixel / (1 + 4 * t / Tries), 2 * Math.PI * dice.NextDouble());
            var (x, y) = (at % width + 0.5, at / width + 0.5);
            var stroke = new Stroke(name, x, y, x + length * Math.Cos(turn), y + length * Math.Sin(turn));
            if (LiesIn(stroke, truth, width, HalfWidth / mmPerPixel) && drawn.All(d => d.Distance(stroke.X1, stroke.Y1) > Gap / mmPerPixel && d.Distance(stroke.X2, stroke.Y2) > Gap / mmPerPixel)) drawn.Add(stroke);
        }
        return drawn;
    }

    /// <summary>As marks in pixels.</summary>
    public static string GeoJson(IEnumerable<Stroke> strokes) => JsonSerializer.Serialize(new
    {
        type = "FeatureCollection",
        features = strokes.Select(s => new
        {
            type = "Feature",
            properties = new Dictionary<string, string> { ["class"] = s.Class },
            geometry = new { type = "LineString", coordinates = new[] { new[] { s.X1, s.Y1 }, [s.X2, s.Y2] } },
        }),
    });

    private static bool LiesIn(Stroke stroke, bool[] truth, int width, double halfWidth)
    {
        for (var y = (int)(Math.Min(stroke.Y1, stroke.Y2) - halfWidth); y <= Math.Max(stroke.Y1, stroke.Y2) + halfWidth; y++)
            for (var x = (int)(Math.Min(stroke.X1, stroke.X2) - halfWidth); x <= Math.Max(stroke.X1, stroke.X2) + halfWidth; x++)
                if (stroke.Distance(x + 0.5, y + 0.5) <= halfWidth && !(x >= 0 && x < width && y >= 0 && y * width + x < truth.Length && truth[y * width + x])) return false;
        return true;
    }
}
