using MathNet.Numerics.Statistics;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Benchmarks.Alignment;

/// <summary>How well a method laid one pair.</summary>
/// <param name="Pair">The pair.</param>
/// <param name="Method">Who did it.</param>
/// <param name="Verdict">What it said of its answer; empty when it never says.</param>
/// <param name="Error">Median distance of its landmarks to the marked ones, pixels; infinite when it has no answer.</param>
/// <param name="Seconds">Its time.</param>
internal sealed record Outcome(LandmarkedPair Pair, string Method, string Verdict, double Error, double Seconds)
{
    public static Outcome Of(LandmarkedPair pair, string method, string verdict, IReadOnlyList<Point2>? mapped, double seconds) =>
        new(pair, method, verdict, mapped is null ? double.PositiveInfinity : Distances(mapped, pair.OnFixed).Median(), seconds);

    /// <summary>Distances of points to where they should be.</summary>
    /// <exception cref="FormatException">Not as many as there should be.</exception>
    public static IEnumerable<double> Distances(IReadOnlyList<Point2> points, IReadOnlyList<Point2> truth)
    {
        if (points.Count != truth.Count) throw new FormatException($"{points.Count} points came back for {truth.Count}.");
        return points.Zip(truth, (a, b) => a.DistanceTo(b));
    }
}
