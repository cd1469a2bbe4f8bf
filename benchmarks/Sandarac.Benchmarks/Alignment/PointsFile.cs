using Sandarac.Benchmarks.Measuring;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Benchmarks.Alignment;

/// <summary>Points as a table: the header <c>x,y</c>, then one point a line, in pixels from the outer corner of the first pixel.</summary>
internal static class PointsFile
{
    public static void Write(string path, IEnumerable<Point2> points) => File.WriteAllLines(path, ["x,y", .. points.Select(p => $"{p.X:R},{p.Y:R}")]);

    public static IReadOnlyList<Point2> Read(string path) => [.. Rows(path).Select(r => new Point2(r[0], r[1]))];

    /// <summary>All numbers below the header.</summary>
    public static IEnumerable<double[]> Rows(string path) =>
        File.ReadLines(path).Skip(1).Where(l => l.Length > 0).Select(l => l.Split(',').Select(Invariant.Number).ToArray());
}
