using NetTopologySuite.Geometries;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Specimen.Scoring;

/// <summary>How well places that were found agree with one phenomenon of a specimen's truth.</summary>
/// <remarks>Compared on points 0.5 mm apart. By area: the truth's share at each point found, and found or not at each point weighed by the truth's share. By object: a place is right when at
/// least half of it is truth; an object, a connected part of the points more than half filled, of at least 4 mm2, is hit when at least half of it was found.</remarks>
/// <param name="AreaPrecision">Share of what was found that is truth; NaN when nothing was found.</param>
/// <param name="AreaRecall">Share of the truth that was found; NaN when there is none.</param>
/// <param name="Overlap">Area of both over area of either, of points more than half filled (intersection over union).</param>
/// <param name="Places">Places found.</param>
/// <param name="RightPlaces">Of these, right.</param>
/// <param name="Objects">Objects of the truth.</param>
/// <param name="HitObjects">Of these, hit.</param>
public sealed record ZoneScore(double AreaPrecision, double AreaRecall, double Overlap, int Places, int RightPlaces, int Objects, int HitObjects)
{
    private const double LeastMm2 = 4;

    /// <summary>Harmonic mean of precision and recall by area; 0 when nothing right was found.</summary>
    public double AreaF1 => Harmonic(AreaPrecision, AreaRecall);

    /// <summary>The same by object.</summary>
    public double ObjectF1 => Harmonic((double)RightPlaces / Places, (double)HitObjects / Objects);

    /// <summary>Compares.</summary>
    /// <param name="found">Places found, mm on the plane, y down.</param>
    /// <param name="truth">Share at each point of the lattice.</param>
    /// <param name="ignored">Points that count neither way; null for none.</param>
    internal static ZoneScore Of(IReadOnlyList<Geometry> found, float[] truth, bool[]? ignored = null)
    {
        var counted = Enumerable.Range(0, truth.Length).Where(i => ignored is null || !ignored[i]).ToHashSet();
        int[][] places = [.. found.Select(g => TruthLattice.Inside(g).Where(counted.Contains).ToArray())];
        var (seen, filled) = (places.SelectMany(p => p).ToHashSet(), truth.Select((t, i) => t > 0.5f && counted.Contains(i)).ToArray());
        var objects = ConnectedParts.Of(filled, TruthLattice.Columns).Where(o => o.Count * TruthLattice.StepMm * TruthLattice.StepMm >= LeastMm2).ToList();
        var (hit, all) = (seen.Sum(i => (double)truth[i]), counted.Sum(i => (double)truth[i]));
        var both = seen.Count(i => filled[i]);
        return new ZoneScore(hit / seen.Count, hit / all, both / (double)(seen.Count + filled.Count(f => f) - both), places.Length,
            places.Count(p => p.Length > 0 && p.Average(i => truth[i]) >= 0.5), objects.Count, objects.Count(o => 2 * o.Count(seen.Contains) >= o.Count));
    }

    private static double Harmonic(double precision, double recall) => precision + recall > 0 ? 2 * precision * recall / (precision + recall) : 0;
}
