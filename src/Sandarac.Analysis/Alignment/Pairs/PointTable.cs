using System.Globalization;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Alignment.Pairs;

/// <summary>A CSV of points: a header, then x, y in pixels, one point a line; (0, 0) is the outer corner of the first pixel, so that its centre is (0.5, 0.5).</summary>
public static class PointTable
{
    private const int Most = 1_000_000;

    /// <summary>Reads points.</summary>
    /// <exception cref="InputProblem">Missing, or a line is not two finite numbers.</exception>
    public static IReadOnlyList<Point2> Read(string path)
    {
        var name = Path.GetFileName(path);
        string[] lines;
        try
        {
            lines = [.. File.ReadLines(path).Take(Most + 2)];
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new InputProblem("points-unreadable", name, $"{name} cannot be read: {e.Message}", "Give a CSV file with a header and two columns, x and y.", e);
        }
        if (lines.Length > Most + 1) throw new InputProblem("points-many", name, $"{name} has more than {Most} points.", "Split it.");
        return [.. lines.Select((line, i) => (line, i)).Skip(1).Where(l => l.line.Trim().Length > 0).Select(l => Parse(name, l.line, l.i + 1))];
    }

    /// <summary>Writes points with six decimals.</summary>
    public static void Write(string path, IReadOnlyList<Point2> points) =>
        File.WriteAllLines(path, points.Select(p => string.Create(CultureInfo.InvariantCulture, $"{p.X:0.######},{p.Y:0.######}")).Prepend("x,y"));

    private static Point2 Parse(string name, string line, int number)
    {
        var cells = line.Split(',', ';', '\t');
        return cells.Length >= 2 && double.TryParse(cells[0], CultureInfo.InvariantCulture, out var x) && double.TryParse(cells[1], CultureInfo.InvariantCulture, out var y) && double.IsFinite(x) && double.IsFinite(y)
            ? new Point2(x, y)
            : throw new InputProblem("points-faulty", name, $"Line {number} of {name} is not two numbers: \"{line[..Math.Min(40, line.Length)]}\".", "Give x and y in pixels, separated by a comma, after one header line.");
    }
}
