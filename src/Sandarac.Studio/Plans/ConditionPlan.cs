using NetTopologySuite.Geometries;
using Sandarac.Materials.Terms;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Plans;

/// <summary>A zone as it stood when a state was recorded.</summary>
/// <param name="Id">The zone.</param>
/// <param name="Name">Its name then.</param>
/// <param name="Revision">Its revision then.</param>
/// <param name="Geometry">Where it lies, mm on the plane, y down, whole: also what lies beyond the painted face.</param>
public sealed record PlanZone(Guid Id, string Name, int Revision, Geometry Geometry);

/// <summary>A finding as it stood when a state was recorded.</summary>
/// <param name="Id">The finding.</param>
/// <param name="Content">What was written of it then.</param>
/// <param name="Standing">How it stood to the state compared with.</param>
/// <param name="Appearance">How its term is drawn.</param>
/// <param name="Zones">Where it was.</param>
public sealed record PlanFinding(Guid Id, FindingContent Content, Standing Standing, Appearance Appearance, IReadOnlyList<PlanZone> Zones)
{
    /// <summary>Its number on the painting.</summary>
    public int Number => Content.Number;
}

/// <summary>What a condition plan shows: the findings of one state with their zones.</summary>
/// <param name="Painting">The painting.</param>
/// <param name="State">The state; null for findings as they stand now.</param>
/// <param name="AsOf">Findings and zones are shown as they stood then, UTC.</param>
/// <param name="IsSealed">Whether the state was sealed.</param>
/// <param name="Findings">By number; those that the state calls gone are left out.</param>
/// <param name="Gone">Those.</param>
/// <param name="Alignments">Of the painting's photographs, in force: areas take their uncertainty from them.</param>
/// <param name="ChangedSince">How many of its findings and zones were changed after <paramref name="AsOf"/>.</param>
/// <param name="Terms">The studio's terms by key: the legend defines them.</param>
public sealed record ConditionPlan(Painting Painting, ConditionState? State, DateTime AsOf, bool IsSealed, IReadOnlyList<PlanFinding> Findings, IReadOnlyList<PlanFinding> Gone, IReadOnlyList<Alignment> Alignments,
    int ChangedSince, IReadOnlyDictionary<string, Term> Terms)
{
    /// <summary>"before treatment", or "findings as they stand".</summary>
    public string Name => State?.Content.Name ?? "findings as they stand";

    /// <summary>The painted face, mm.</summary>
    internal Geometry Face { get; } = GeometryFactory.Default.ToGeometry(new Envelope(0, Painting.WidthMm, 0, Painting.HeightMm));

    /// <summary>What the finding's term means; empty when it has none.</summary>
    public string DefinitionOf(string term) => Terms.GetValueOrDefault(term)?.Definition ?? "";
}
