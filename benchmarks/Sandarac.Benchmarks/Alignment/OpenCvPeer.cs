using System.Text.Json;
using Sandarac.Benchmarks.Measuring;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Benchmarks.Alignment;

/// <summary>One of the peer's methods on one pair.</summary>
/// <param name="Method">Its name in the script.</param>
/// <param name="Seconds">Without the start of Python.</param>
/// <param name="Points">The points in the fixed image, x and y each; null when the method has no answer.</param>
internal sealed record PeerAnswer(string Method, double Seconds, double[][]? Points);

/// <summary>The peer's whole way with a large pair.</summary>
internal sealed record PeerLargeAnswer(string How, IReadOnlyList<Stage> Stages, double[][]? Points);

/// <summary>OpenCV under Debian's Python, by <c>peers/opencv_align.py</c>.</summary>
internal static class OpenCvPeer
{
    private const string Python = "/usr/bin/python3";

    private static readonly string Script = Path.Combine(AppContext.BaseDirectory, "peers", "opencv_align.py");

    public static IReadOnlyList<string> Methods { get; } = ["sift", "ecc", "sift+ecc"];

    /// <summary>Null where it is not installed.</summary>
    public static string? Version { get; } = FindVersion();

    /// <summary>What it is, or how to get it.</summary>
    public static string Name => Version is null ? "peer not present: apt-get install python3-opencv" : $"OpenCV {Version}";

    public static IReadOnlyList<PeerAnswer> Pair(
        string folder, string fixedImage, string movingImage, IReadOnlyList<Point2> points, params IEnumerable<string> methods)
    {
        var from = Path.Combine(folder, "peer.csv");
        PointsFile.Write(from, points);
        return Parse<PeerAnswer[]>(Run("pair", [fixedImage, movingImage, from, .. methods]).Output);
    }

    public static (PeerLargeAnswer Answer, ChildResult Process) Large(string fixedImage, string movingImage, string points, string outFile)
    {
        var process = Run("large", fixedImage, movingImage, points, outFile);
        return (Parse<PeerLargeAnswer>(process.Output), process);
    }

    public static IReadOnlyList<Point2>? Mapped(double[][]? points) => points is null ? null : [.. points.Select(p => new Point2(p[0], p[1]))];

    private static ChildResult Run(string work, params IEnumerable<string> arguments) => Child.Run(Child.Of(Python, [Script, work, .. arguments]));

    private static T Parse<T>(string json) => JsonSerializer.Deserialize<T>(json, JsonSerializerOptions.Web)!;

    private static string? FindVersion()
    {
        if (!File.Exists(Python)) return null;
        try
        {
            return Run("version").Output.Trim();
        }
        catch (InvalidOperationException)
        {
            return null;
        }
    }
}
