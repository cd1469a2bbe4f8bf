using NetTopologySuite.Geometries;
using Sandarac.Studio.Places;
using Sandarac.Studio.Record;

namespace Sandarac.Studio;

/// <summary>Where a finding is and how much of the painting it takes.</summary>
/// <param name="Zones">Its zones; those that were deleted are left out.</param>
/// <param name="Extent">What they cover together, once where they overlap; null when none of them covers anything.</param>
/// <param name="LengthMm">Length of its lines together, mm.</param>
/// <param name="Points">How many points.</param>
public sealed record FindingPlace(IReadOnlyList<ZoneFacts> Zones, ZoneExtent? Extent, double LengthMm, int Points);

/// <summary>Measures findings on the plane.</summary>
public sealed class FindingPlaces(OpenStudio studio)
{
    /// <summary>The places of findings, by their key.</summary>
    /// <param name="paintingId">The painting.</param>
    /// <param name="findings">Its findings.</param>
    /// <exception cref="Imaging.InputProblem">"unknown-painting".</exception>
    public IReadOnlyDictionary<Guid, FindingPlace> Of(Guid paintingId, IEnumerable<Finding> findings)
    {
        using var db = studio.CreateDb();
        var painting = db.RequirePainting(paintingId);
        var zones = new Zones(studio).Of(paintingId).ToDictionary(z => z.Id);
        var alignments = Alignments(db, paintingId);
        return findings.ToDictionary(f => f.Id, f => Of([.. f.Content.Zones.Where(zones.ContainsKey).Select(id => zones[id])], painting, alignments));
    }

    /// <summary>What some zones cover together, with its uncertainty; null when none of them covers anything.</summary>
    internal static ZoneExtent? Extent(IEnumerable<Geometry> zones, Painting painting, Alignment[] alignments) => CoveredArea.Of(zones) is { IsEmpty: false } area ? ZoneExtents.Of(area, painting, alignments) : null;

    /// <summary>The alignments in force, which say how surely outlines lie.</summary>
    internal static Alignment[] Alignments(StudioDb db, Guid paintingId) => [.. db.PhotographsOf(paintingId).Select(p => p.Alignments.InForce()).OfType<Alignment>()];

    private static FindingPlace Of(IReadOnlyList<ZoneFacts> zones, Painting painting, Alignment[] alignments)
    {
        var geometries = zones.Select(z => ZoneGeometry.Read(z.Geometry)).ToList();
        return new FindingPlace(zones, Extent(geometries, painting, alignments), geometries.Where(g => g is ILineal).Sum(g => g.Length), geometries.Where(g => g is IPuntal).Sum(g => g.NumGeometries));
    }
}
