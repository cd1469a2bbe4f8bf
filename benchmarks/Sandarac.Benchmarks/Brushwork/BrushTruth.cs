using System.Text.Json;
using Sandarac.Imaging;
using Sandarac.Imaging.Formats;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Benchmarks.Brushwork;

/// <summary>What is true of a specimen's marks and surface, on the grid of its truth.</summary>
/// <param name="Topmost">Number of the mark on top, 0 for none.</param>
/// <param name="Degrees">Direction of that mark there, anticlockwise from the horizontal; NaN for none.</param>
/// <param name="Height">Height, um.</param>
/// <param name="Mm">Size of a pixel.</param>
internal sealed record BrushTruth(Plane Topmost, Plane Degrees, Plane Height, double Mm)
{
    /// <summary>Reads a specimen's truth.</summary>
    public static BrushTruth Read(string folder)
    {
        var truth = Path.Combine(folder, "truth");
        using var masks = JsonDocument.Parse(File.ReadAllText(Path.Combine(truth, "masks.json")));
        var mm = masks.RootElement.GetProperty("mmPerPixel").GetDouble();
        var (topmost, paths) = (PlaneOf(Path.Combine(truth, "topmost_mark.tif")), new List<Point2[]>());
        foreach (var line in File.ReadLines(Path.Combine(truth, "marks.jsonl")))
        {
            using var mark = JsonDocument.Parse(line);
            paths.Add([.. mark.RootElement.GetProperty("pathMm").EnumerateArray().Select(p => new Point2(p[0].GetDouble(), p[1].GetDouble()))]);
        }
        var degrees = new Plane(topmost.Width, topmost.Height);
        Parallel.For(0, topmost.Height, y =>
        {
            for (var x = 0; x < topmost.Width; x++)
                degrees[x, y] = topmost[x, y] > 0 ? Direction(paths[(int)topmost[x, y] - 1], new Point2((x + 0.5) * mm, (y + 0.5) * mm)) : float.NaN;
        });
        return new BrushTruth(topmost, degrees, PlaneOf(Path.Combine(truth, "height_um.tif")), mm);
    }

    /// <summary>The angle between two directions, degrees, 0 to 90.</summary>
    public static double Between(double a, double b) => Math.Abs(Math.IEEERemainder(a - b, 180));

    /// <summary>Mean of directions, degrees.</summary>
    public static double Mean(IEnumerable<double> degrees)
    {
        var (cos, sin) = (0.0, 0.0);
        foreach (var d in degrees) (cos, sin) = (cos + Math.Cos(2 * d * Math.PI / 180), sin + Math.Sin(2 * d * Math.PI / 180));
        return 90 / Math.PI * Math.Atan2(sin, cos);
    }

    /// <summary>Direction of a path where it passes nearest to a place.</summary>
    private static float Direction(Point2[] path, Point2 place)
    {
        var nearest = 0;
        for (var k = 1; k < path.Length; k++)
            if (path[k].DistanceTo(place) < path[nearest].DistanceTo(place)) nearest = k;
        var (from, to) = (path[Math.Max(0, nearest - 1)], path[Math.Min(path.Length - 1, nearest + 1)]);
        return (float)(-180 / Math.PI * Math.Atan2(to.Y - from.Y, to.X - from.X));
    }

    private static Plane PlaneOf(string file)
    {
        using var image = ImageFile.Open(file);
        return image.ReadWindow(0, 0, image.Facts.Width, image.Facts.Height)[0];
    }
}
