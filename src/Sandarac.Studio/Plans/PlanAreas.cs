using NetTopologySuite.Geometries;
using Sandarac.Materials.Terms;
using Sandarac.Studio.Places;

namespace Sandarac.Studio.Plans;

/// <summary>How much of the painted face something takes.</summary>
/// <param name="Extent">Area with uncertainty and share of the face; places that several zones cover count once.</param>
/// <param name="LengthMm">Lines within the face, together, mm.</param>
/// <param name="LengthUncertaintyMm">Half-width of the 95 % interval; null when no photograph that was matched touches them.</param>
/// <param name="Lines">How many lines.</param>
/// <param name="Points">How many points within the face.</param>
public sealed record PlanExtent(ZoneExtent Extent, double LengthMm, double? LengthUncertaintyMm, int Lines, int Points);

/// <summary>A term in the areas table.</summary>
/// <param name="Appearance">How it is drawn.</param>
/// <param name="Definition">What is meant by it; empty for findings without a term.</param>
/// <param name="Numbers">Numbers of its findings.</param>
/// <param name="Extent">What they take together.</param>
public sealed record TermExtent(Appearance Appearance, string Definition, IReadOnlyList<int> Numbers, PlanExtent Extent)
{
    /// <summary>The part of the face that they cover, mm on the plane.</summary>
    internal Geometry Area { get; init; } = GeometryFactory.Default.CreatePolygon();
}

/// <summary>Measures the zones of a plan.</summary>
public static class PlanAreas
{
    /// <summary>The plan's terms in the order of the legend: by layer as the table of terms has them.</summary>
    public static IReadOnlyList<TermExtent> Of(ConditionPlan plan) =>
        [.. plan.Findings.GroupBy(f => f.Appearance.Key).OrderBy(g => Order(g.Key)).ThenBy(g => g.Key, StringComparer.Ordinal).Select(g => Of(plan, [.. g]))];

    /// <summary>What all findings take together: where terms overlap, once.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="terms">Its terms.</param>
    public static PlanExtent Whole(ConditionPlan plan, IReadOnlyList<TermExtent> terms) => Measured(plan, Union(plan, terms.Select(t => t.Area)), plan.Findings.SelectMany(f => f.Zones));

    /// <summary>What some zones take together.</summary>
    public static PlanExtent Of(ConditionPlan plan, IReadOnlyList<PlanZone> zones) => Measured(plan, Union(plan, zones.Select(z => z.Geometry)), zones);

    private static TermExtent Of(ConditionPlan plan, IReadOnlyList<PlanFinding> findings)
    {
        var area = Union(plan, findings.SelectMany(f => f.Zones).Select(z => z.Geometry));
        return new TermExtent(findings[0].Appearance, plan.DefinitionOf(findings[0].Content.Term), [.. findings.Select(f => f.Number)], Measured(plan, area, findings.SelectMany(f => f.Zones))) { Area = area };
    }

    private static PlanExtent Measured(ConditionPlan plan, Geometry area, IEnumerable<PlanZone> zones)
    {
        var parts = zones.DistinctBy(z => (z.Id, z.Revision)).SelectMany(z => CoveredArea.Parts(z.Geometry)).ToList();
        var lines = parts.OfType<LineString>().Select(l => l.Intersection(plan.Face)).Where(l => l.Length > 0).ToList();
        var length = lines.Sum(l => l.Length);
        // Where the lines lie other photographs may have been matched than where the areas lie.
        var boundary = lines.Count == 0 ? null : ZoneExtents.Of(plan.Face.Factory.BuildGeometry(lines), plan.Painting, plan.Alignments).BoundaryMm;
        return new PlanExtent(ZoneExtents.Of(area, plan.Painting, plan.Alignments), length, boundary is { } off ? Math.Sqrt(2 * lines.Count * off * off + Square(length * (plan.Painting.SizeUncertainty ?? 0))) : null, lines.Count, parts.OfType<Point>().Count(p => plan.Face.Covers(p)));
    }

    /// <summary>The part of the face that some zones cover.</summary>
    internal static Geometry Union(ConditionPlan plan, IEnumerable<Geometry> geometries) => Areal(CoveredArea.Of(geometries).Intersection(plan.Face));

    /// <summary>Without the lines and points in which areas touch the border.</summary>
    internal static Geometry Areal(Geometry geometry) => geometry is IPolygonal ? geometry : geometry.Factory.BuildGeometry([.. CoveredArea.Parts(geometry).OfType<Polygon>()]) is IPolygonal areas ? (Geometry)areas : geometry.Factory.CreatePolygon();

    private static int Order(string key) => Appearance.All.TakeWhile(a => a.Key != key).Count();

    private static double Square(double x) => x * x;
}
