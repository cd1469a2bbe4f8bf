using System.Text.Json;
using Sandarac.Benchmarks.Measuring;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Benchmarks.Alignment;

/// <summary>A step of an alignment and its time.</summary>
internal sealed record Stage(string Name, double Seconds);

/// <summary>What an aligner says of a pair.</summary>
/// <param name="Verdict">"aligned", "uncertain" or "not-aligned".</param>
/// <param name="Reason">Why, in words.</param>
/// <param name="Stages">Its steps.</param>
internal sealed record AlignAnswer(string Verdict, string? Reason, IReadOnlyList<Stage>? Stages)
{
    public const string Aligned = "aligned", Uncertain = "uncertain", NotAligned = "not-aligned";

    /// <summary>From the program's output with <c>--json</c>.</summary>
    /// <exception cref="FormatException">It has no verdict that is known here.</exception>
    public static AlignAnswer Parse(string json)
    {
        var answer = JsonSerializer.Deserialize<AlignAnswer>(json, JsonSerializerOptions.Web);
        return answer?.Verdict is Aligned or Uncertain or NotAligned ? answer : throw new FormatException($"No verdict in: {json}");
    }
}

/// <summary>One pair as a person aligns it on the command line.</summary>
/// <param name="Answer">What the program said.</param>
/// <param name="Points">The points in the fixed image; null when it gave none.</param>
/// <param name="Process">The process.</param>
internal sealed record AlignRun(AlignAnswer Answer, IReadOnlyList<Point2>? Points, ChildResult Process)
{
    /// <summary>Runs <c>sandarac align</c>.</summary>
    /// <param name="folder">For the tables of points.</param>
    /// <param name="fixedImage">Is laid on.</param>
    /// <param name="movingImage">Is laid.</param>
    /// <param name="points">Points of the moving image to carry over.</param>
    /// <param name="more">Further options.</param>
    public static AlignRun Of(string folder, string fixedImage, string movingImage, IReadOnlyList<Point2> points, params IEnumerable<string> more)
    {
        var (from, to) = (Path.Combine(folder, "from.csv"), Path.Combine(folder, "to.csv"));
        PointsFile.Write(from, points);
        File.Delete(to);
        var process = Child.Run(Child.Sandarac(["align", fixedImage, movingImage, "--points", from, "--points-out", to, "--json", .. more]));
        return new AlignRun(AlignAnswer.Parse(process.Output), File.Exists(to) ? PointsFile.Read(to) : null, process);
    }
}
