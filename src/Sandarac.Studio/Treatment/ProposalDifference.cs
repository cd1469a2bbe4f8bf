using Sandarac.Studio.Record;

namespace Sandarac.Studio.Treatment;

/// <summary>What became of a step between the approved proposal and a later one.</summary>
public enum StepChange
{
    /// <summary>As approved.</summary>
    Same,

    /// <summary>Something of it differs.</summary>
    Changed,

    /// <summary>It is new.</summary>
    Added,

    /// <summary>It is left out.</summary>
    LeftOut,
}

/// <summary>A step in both proposals.</summary>
/// <param name="Change">What became of it.</param>
/// <param name="Approved">As approved; null when it is new.</param>
/// <param name="Later">As it is now; null when it is left out.</param>
/// <param name="Parts">Which parts differ: "name", "kind", "operation", "zones", "materials", "risks", "irreversible", "order".</param>
public sealed record StepDifference(StepChange Change, ProposedStep? Approved, ProposedStep? Later, IReadOnlyList<string> Parts);

/// <summary>What differs between the approved option and an option of a later proposal, step by step.</summary>
public static class ProposalDifference
{
    /// <summary>Steps of the later option in their order, then those that are left out.</summary>
    /// <param name="approved">The option that was approved.</param>
    /// <param name="later">The later one.</param>
    public static IReadOnlyList<StepDifference> Between(ProposalOption approved, ProposalOption later)
    {
        var before = approved.Steps.ToDictionary(s => s.Id);
        List<Guid> kept = [.. later.Steps.Select(s => s.Id).Where(before.ContainsKey)], old = [.. approved.Steps.Select(s => s.Id).Where(kept.Contains)];
        return
        [
            .. later.Steps.Select(s => before.TryGetValue(s.Id, out var was) ? Compared(was, s, kept.IndexOf(s.Id) != old.IndexOf(s.Id)) : new StepDifference(StepChange.Added, null, s, [])),
            .. approved.Steps.Where(s => !kept.Contains(s.Id)).Select(s => new StepDifference(StepChange.LeftOut, s, null, [])),
        ];
    }

    private static StepDifference Compared(ProposedStep was, ProposedStep now, bool isMoved)
    {
        (string Part, bool Differs)[] parts =
        [
            ("name", was.Name != now.Name), ("kind", was.Kind != now.Kind), ("operation", was.Operation != now.Operation), ("zones", !was.Zones.ToHashSet().SetEquals(now.Zones)), ("materials", was.Materials != now.Materials),
            ("risks", was.Risks != now.Risks), ("irreversible", was.Irreversible != now.Irreversible), ("order", isMoved),
        ];
        string[] differ = [.. parts.Where(p => p.Differs).Select(p => p.Part)];
        return new StepDifference(differ.Length == 0 ? StepChange.Same : StepChange.Changed, was, now, differ);
    }
}
