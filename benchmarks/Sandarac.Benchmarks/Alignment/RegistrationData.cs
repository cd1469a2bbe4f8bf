using Sandarac.Benchmarks.Measuring;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Benchmarks.Alignment;

/// <summary>Two images of one scene with the same landmarks marked by hand in both.</summary>
/// <param name="Name">What the files' names begin with.</param>
/// <param name="Family">The kinds of light.</param>
/// <param name="Fixed">The image that the other is laid on.</param>
/// <param name="Moving">The other.</param>
/// <param name="OnFixed">Landmarks in the fixed image, pixels.</param>
/// <param name="OnMoving">The same in the moving image.</param>
internal sealed record LandmarkedPair(
    string Name, string Family, string Fixed, string Moving, IReadOnlyList<Point2> OnFixed, IReadOnlyList<Point2> OnMoving);

/// <summary>Real pairs in different lights. They may not be copied into the repository and are read in place.</summary>
internal static class RegistrationData
{
    /// <summary>
    /// From the landmark files' pixels to ours. They do not say what they count from; taken for a marking tool's one-based pixel centres. Both
    /// images are treated alike, so that another guess moves an error by half a pixel times the difference in scale only: 0.02 px in the median.
    /// </summary>
    private const double ToOurPixels = -0.5;

    private static readonly Dictionary<string, string> Families = new()
    {
        ["ComputerVision__RGB_NIR__"] = "colour/near-infrared",
        ["ComputerVision__VIS_IR__"] = "colour/thermal",
        ["Medical__Retina__"] = "retina, angiography/colour",
        ["RemoteSensing__Infrared_Optical__"] = "satellite, infrared/optical",
    };

    /// <summary>Pairs of pairs that show the same scene: one eye twice, and one river in two views.</summary>
    private static readonly (string, string)[] SameScene =
    [
        ("Medical__Retina__Retina_91", "Medical__Retina__Retina_93"), ("RemoteSensing__Infrared_Optical__IO1", "RemoteSensing__Infrared_Optical__IO3"),
    ];

    /// <summary>All pairs in the order of their names; none where the data are not present.</summary>
    public static IReadOnlyList<LandmarkedPair> Load() => SharedFolder.Find("registration") is { } folder
        ? [.. Directory.GetFiles(folder, "*_fix.png").Select(f => f[..^"_fix.png".Length]).Order(StringComparer.Ordinal).Select(Load)]
        : [];

    public static bool ShowTheSame(LandmarkedPair one, LandmarkedPair other) =>
        one.Name == other.Name || SameScene.Contains((one.Name, other.Name)) || SameScene.Contains((other.Name, one.Name));

    private static LandmarkedPair Load(string path)
    {
        var name = Path.GetFileName(path);
        var marks = PointsFile.Rows(path + ".csv").Select(r => r.Select(v => v + ToOurPixels).ToArray()).ToList();
        var family = Families.FirstOrDefault(f => name.StartsWith(f.Key, StringComparison.Ordinal)).Value ?? name.Split("__")[0];
        return new LandmarkedPair(name, family, path + "_fix.png", path + "_move.png",
            [.. marks.Select(m => new Point2(m[0], m[1]))], [.. marks.Select(m => new Point2(m[2], m[3]))]);
    }
}
