using NetTopologySuite.Geometries;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Plans;

/// <summary>What became of a finding.</summary>
public enum Became
{
    /// <summary>It was not there before.</summary>
    New,

    /// <summary>It is not there any more.</summary>
    Gone,

    /// <summary>Its zones or its words are other ones.</summary>
    Changed,

    /// <summary>As it was.</summary>
    Same,
}

/// <summary>A finding in two states.</summary>
/// <param name="Number">Its number.</param>
/// <param name="Became">What became of it.</param>
/// <param name="Finding">It, as it stood last.</param>
/// <param name="Before">What it took; null when it was not there.</param>
/// <param name="After">What it takes; null when it is not there any more.</param>
/// <param name="ChangeMm2">Area after less area before, mm2.</param>
/// <param name="UncertaintyMm2">Half-width of the 95 % interval of that; null when it cannot be known. The painting's size cancels: both were measured on one plane.</param>
/// <param name="GainedMm2">Area that only the later state has, mm2.</param>
/// <param name="LostMm2">Area that only the earlier state has, mm2.</param>
public sealed record FindingDifference(int Number, Became Became, PlanFinding Finding, PlanExtent? Before, PlanExtent? After, double ChangeMm2, double? UncertaintyMm2, double GainedMm2, double LostMm2)
{
    /// <summary>Whether the area differs by more than its uncertainty; null when that is not known. Zones that nobody redrew do not differ, whatever their uncertainty.</summary>
    public bool? IsBeyondUncertainty => ChangeMm2 == 0 ? false : UncertaintyMm2 is { } off ? Math.Abs(ChangeMm2) > off : null;
}

/// <summary>What differs between two states of a painting.</summary>
/// <param name="Before">The earlier state.</param>
/// <param name="After">The later one.</param>
/// <param name="Findings">By number.</param>
public sealed record PlanDifference(ConditionPlan Before, ConditionPlan After, IReadOnlyList<FindingDifference> Findings)
{
    /// <summary>Compares two plans of one painting.</summary>
    public static PlanDifference Between(ConditionPlan before, ConditionPlan after)
    {
        var (then, now) = (before.Findings.ToDictionary(f => f.Id), after.Findings.ToDictionary(f => f.Id));
        return new PlanDifference(before, after, [.. then.Keys.Union(now.Keys).Select(id => Of(before, after, then.GetValueOrDefault(id), now.GetValueOrDefault(id))).OrderBy(d => d.Number)]);
    }

    /// <summary>Area that findings have in the later state and no finding of the same number had in the earlier.</summary>
    internal Geometry Gained => PlanAreas.Union(After, Findings.Select(d => Only(d, After, Before)));

    /// <summary>Area that findings had and have not any more.</summary>
    internal Geometry Lost => PlanAreas.Union(After, Findings.Select(d => Only(d, Before, After)));

    private static FindingDifference Of(ConditionPlan before, ConditionPlan after, PlanFinding? then, PlanFinding? now)
    {
        var (was, becomes) = (then is null ? null : PlanAreas.Of(before, then.Zones), now is null ? null : PlanAreas.Of(after, now.Zones));
        var (old, present) = (AreaOf(before, then), AreaOf(after, now));
        var became = then is null ? Became.New : now is null ? Became.Gone : IsSame(then, now) ? Became.Same : Became.Changed;
        // The same zones have one outline, however surely it was drawn.
        var isRedrawn = became != Became.Same && !SameZones(then, now);
        return new FindingDifference((now ?? then)!.Number, became, (now ?? then)!, was, becomes, isRedrawn ? present.Area - old.Area : 0, Off(after, was, becomes), isRedrawn ? present.Difference(old).Area : 0, isRedrawn ? old.Difference(present).Area : 0);
    }

    /// <summary>Both outlines may be off, each by its own: their half-widths add as independent ones do. Null where either is not known.</summary>
    private static double? Off(ConditionPlan plan, PlanExtent? before, PlanExtent? after)
    {
        var sum = 0.0;
        foreach (var extent in new[] { before, after }.OfType<PlanExtent>().Where(e => e.Extent.AreaMm2 > 0))
        {
            if (extent.Extent.FaceShareUncertainty is not { } share) return null;
            sum += Math.Pow(share * plan.Face.Area, 2);
        }
        return Math.Sqrt(sum);
    }

    private static Geometry Only(FindingDifference finding, ConditionPlan of, ConditionPlan without)
    {
        var (one, other) = (of.Findings.FirstOrDefault(f => f.Number == finding.Number), without.Findings.FirstOrDefault(f => f.Number == finding.Number));
        return SameZones(one, other) ? of.Face.Factory.CreatePolygon() : AreaOf(of, one).Difference(AreaOf(without, other));
    }

    private static Geometry AreaOf(ConditionPlan plan, PlanFinding? finding) => PlanAreas.Union(plan, finding?.Zones.Select(z => z.Geometry) ?? []);

    private static bool IsSame(PlanFinding then, PlanFinding now) => now.Standing != Standing.Changed && SameZones(then, now) && then.Content.Observation == now.Content.Observation && then.Content.Interpretation == now.Content.Interpretation
        && then.Content.Term == now.Content.Term && then.Content.Severity == now.Content.Severity && then.Content.Confidence == now.Content.Confidence;

    /// <summary>By place, not by revision: a zone whose name alone was changed is where it was.</summary>
    private static bool SameZones(PlanFinding? then, PlanFinding? now) => then is not null && now is not null && then.Zones.Count == now.Zones.Count && then.Zones.Zip(now.Zones).All(p => p.First.Id == p.Second.Id && p.First.Geometry.EqualsExact(p.Second.Geometry, 1e-6));
}
