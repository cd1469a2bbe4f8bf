using System.Text.Json;
using Sandarac.Imaging.Formats;
using Sandarac.Imaging.Geometry;
using Sandarac.Imaging.Tiles;
using Sandarac.Imaging.Warping;
using Sandarac.Specimen;

namespace Sandarac.Benchmarks.Alignment;

/// <summary>Where each photograph of a drawn specimen truly lies; for scoring alone.</summary>
internal sealed class SpecimenTruth
{
    /// <summary>Points along each side of the grid.</summary>
    private const int Grid = 15;

    private readonly Dictionary<string, (int Width, int Height, HomographyMap Map)> _photographs;

    private SpecimenTruth(Dictionary<string, (int, int, HomographyMap)> photographs) => _photographs = photographs;

    /// <summary>Points all over the painted face, mm.</summary>
    public static IReadOnlyList<Point2> Face { get; } =
    [
        .. from row in Enumerable.Range(0, Grid)
           from column in Enumerable.Range(0, Grid)
           select new Point2((column + 0.5) / Grid * SpecimenPainting.WidthMm, (row + 0.5) / Grid * SpecimenPainting.HeightMm),
    ];

    /// <summary>Of the specimen drawn into a folder.</summary>
    public static SpecimenTruth Read(string folder)
    {
        using var truth = JsonDocument.Parse(File.ReadAllText(Path.Combine(folder, "truth", "poses.json")));
        return new SpecimenTruth(truth.RootElement.GetProperty("photographs").EnumerateArray().ToDictionary(
            p => p.GetProperty("file").GetString()!, p => (p.GetProperty("width").GetInt32(), p.GetProperty("height").GetInt32(), MapOf(p))));
    }

    /// <summary>A photograph's file.</summary>
    public static string Photograph(string folder, string name) => Path.Combine(folder, "photographs", name);

    /// <summary>From a photograph's pixels to the face's millimetres.</summary>
    public HomographyMap MapOf(string name) => _photographs[name].Map;

    /// <summary>Lays a photograph on the plane by its true map, so that no error of alignment is in it.</summary>
    /// <param name="folder">The specimen; the result is put there under the photograph's name.</param>
    /// <param name="name">The photograph.</param>
    /// <param name="grid">Pixels of the plane.</param>
    /// <param name="by">The photograph by whose map it is laid: a board lies as the photograph that was taken with it; itself when not given.</param>
    /// <returns>The file that was made.</returns>
    public string LayOnPlane(string folder, string name, PlaneGrid grid, string? by = null)
    {
        var (pyramid, target) = (Path.Combine(folder, name + ".pyramid"), Path.Combine(folder, name));
        using (var file = ImageFile.Open(Photograph(folder, name))) PyramidFile.Write(file, pyramid);
        using (var source = PyramidFile.Open(pyramid)) PlaneResampler.Write(source, MapOf(by ?? name), grid, target);
        File.Delete(pyramid);
        return target;
    }

    /// <summary>A photograph's columns and rows.</summary>
    public (int Width, int Height) SizeOf(string name) => (_photographs[name].Width, _photographs[name].Height);

    /// <summary>The points of the face that a photograph shows: in its pixels, and in another's.</summary>
    public IReadOnlyList<(Point2 Moving, Point2 Fixed)> Points(string moving, string onto)
    {
        var (width, height, map) = _photographs[moving];
        return [.. Face.Select(p => (Moving: map.ToPixel(p), Fixed: MapOf(onto).ToPixel(p))).Where(p => p.Moving is { X: >= 0, Y: >= 0 } m && m.X <= width && m.Y <= height)];
    }

    private static HomographyMap MapOf(JsonElement photograph)
    {
        double Number(string name) => photograph.GetProperty(name).GetDouble();
        double[] Numbers(string name) => [.. photograph.GetProperty(name).EnumerateArray().Select(v => v.GetDouble())];
        var centre = new Point2(Numbers("centre")[0], Numbers("centre")[1]);
        return new HomographyMap(Numbers("pixelToPlane"), centre, Number("radius"), Number("k1"), Number("k2"));
    }
}
