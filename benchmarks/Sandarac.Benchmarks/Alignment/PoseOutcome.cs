using MathNet.Numerics.Statistics;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Benchmarks.Alignment;

/// <summary>How well one photograph of one specimen was aligned.</summary>
/// <param name="Light">Which photograph.</param>
/// <param name="Seed">Of which specimen.</param>
/// <param name="Pose">How it was changed; empty as it was drawn.</param>
/// <param name="Verdict">What the program said.</param>
/// <param name="Median">Half of the true points lie within, pixels of the photograph in visible light; infinite without an answer.</param>
/// <param name="P95">95 of 100 lie within.</param>
/// <param name="Coarser">Pixels of the photograph in visible light to one of the coarser of the two.</param>
internal sealed record PoseOutcome(string Light, int Seed, string Pose, string Verdict, double Median, double P95, double Coarser = 1)
{
    /// <summary>An alignment is right when 95 of 100 points lie within so many pixels.</summary>
    public const double Right = 2;

    public bool IsRight => P95 < Right;

    /// <summary>Right as far as the coarser photograph can tell.</summary>
    public bool IsRightForCoarser => P95 < Right * Coarser;

    public static PoseOutcome Of(string light, int seed, string pose, string verdict, PlaneMap? map, IReadOnlyList<(Point2 Moving, Point2 Fixed)> points, double coarser = 1)
    {
        if (map is null) return new PoseOutcome(light, seed, pose, verdict, double.PositiveInfinity, double.PositiveInfinity, coarser);
        double[] errors = [.. points.Select(p => map.ToPlane(p.Moving).DistanceTo(p.Fixed))];
        return new PoseOutcome(light, seed, pose, verdict, errors.Median(), errors.QuantileCustom(0.95, QuantileDefinition.R7), coarser);
    }

    public override string ToString() => $"{Light} of seed {Seed}{(Pose.Length == 0 ? "" : $" ({Pose})")}: {Verdict}, median {Measuring.Figure.Show(Median)}, p95 {Measuring.Figure.Show(P95)} px";
}
