using System.Text.Json;
using Sandarac.Benchmarks.Measuring;
using Sandarac.Imaging.Geometry;
using Sandarac.Specimen;

namespace Sandarac.Benchmarks.Alignment;

/// <summary>The specimen in visible light and in infrared, two lenses and two poses, and where points of one truly lie in the other.</summary>
/// <param name="Visible">The fixed photograph.</param>
/// <param name="Infrared">The moving one.</param>
/// <param name="OnVisible">Points of the face, pixels.</param>
/// <param name="OnInfrared">The same points.</param>
internal sealed record LargePair(string Visible, string Infrared, IReadOnlyList<Point2> OnVisible, IReadOnlyList<Point2> OnInfrared)
{
    /// <summary>Points along each side of the grid.</summary>
    private const int Grid = 15;

    private const string VisibleName = "VIS_01.tif", InfraredName = "IR_01.tif";

    /// <summary>Draws in a process of its own, whose memory is free again when the alignment is timed.</summary>
    public static LargePair Draw(double pixelsPerInch, string folder)
    {
        Child.Ours("photographs", $"{pixelsPerInch}", folder, VisibleName, InfraredName);
        using var truth = JsonDocument.Parse(File.ReadAllText(Path.Combine(folder, "truth", "poses.json")));
        var (visible, infrared) = (MapOf(truth, VisibleName), MapOf(truth, InfraredName));
        var face = from row in Enumerable.Range(0, Grid)
                   from column in Enumerable.Range(0, Grid)
                   select new Point2((column + 0.5) / Grid * SpecimenPainting.WidthMm, (row + 0.5) / Grid * SpecimenPainting.HeightMm);
        string Photograph(string name) => Path.Combine(folder, "photographs", name);
        return new LargePair(Photograph(VisibleName), Photograph(InfraredName), [.. face.Select(visible.ToPixel)], [.. face.Select(infrared.ToPixel)]);
    }

    /// <summary>The drawing itself: resolution, folder, names of the photographs.</summary>
    public static int Draw(string[] arguments)
    {
        SpecimenDrawing.Draw(new SpecimenSettings(Invariant.Number(arguments[0]), OnlyPhotographs: arguments[2..]), arguments[1]);
        return arguments.Length - 2;
    }

    private static HomographyMap MapOf(JsonDocument truth, string file)
    {
        var p = truth.RootElement.GetProperty("photographs").EnumerateArray().Single(e => e.GetProperty("file").GetString() == file);
        double Number(string name) => p.GetProperty(name).GetDouble();
        double[] Numbers(string name) => [.. p.GetProperty(name).EnumerateArray().Select(v => v.GetDouble())];
        var centre = new Point2(Numbers("centre")[0], Numbers("centre")[1]);
        return new HomographyMap(Numbers("pixelToPlane"), centre, Number("radius"), Number("k1"), Number("k2"));
    }
}
