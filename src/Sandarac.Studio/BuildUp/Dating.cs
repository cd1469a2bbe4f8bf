namespace Sandarac.Studio.BuildUp;

/// <summary>When a stage was made, as far as its place in the build-up tells.</summary>
public enum Age
{
    /// <summary>Before any varnish or intervention that is recorded.</summary>
    Original,

    /// <summary>After a varnish, dirt or an intervention.</summary>
    Later,

    /// <summary>Not told by what is known.</summary>
    Undetermined,
}

/// <summary>When a stage was made, and why that is said.</summary>
/// <param name="Age">When.</param>
/// <param name="Reason">Why, in words.</param>
public sealed record Dating(Age Age, string Reason)
{
    /// <summary>Dates a group of stages by the varnishes, the dirt and the interventions of its build-up. What lies over dirt or varnish is called later, which it is than that; whether a painter
    /// varnished between two sittings, an order alone cannot tell (common practice, no source).</summary>
    public static Dating Of(BuildUpOrder order, StageGroup group)
    {
        if (group.Kind == StageKind.Intervention) return new(Age.Later, "It is an intervention.");
        var markers = order.Groups.Where(g => g.Index != group.Index && g.Kind is (StageKind.Varnish or StageKind.Dirt or StageKind.Intervention)).ToLookup(g => order.Between(group, g));
        if (Names(markers[Standing.Contradicted]) is { } against) return new(Age.Undetermined, $"What is known of its place to {against} contradicts itself.");
        if (Names(markers[Standing.Over]) is { } under) return new(Age.Later, $"It lies over {under}.");
        if (Names(markers[Standing.Undetermined]) is { } open) return new(Age.Undetermined, $"Nothing tells whether it lies over or under {open}.");
        if (group.Kind is StageKind.Varnish or StageKind.Dirt) return new(Age.Undetermined, "It lies under every other varnish and intervention; its place does not tell whether it was there from the beginning.");
        return Names(markers[Standing.Under]) is { } over ? new(Age.Original, $"It lies under {over}, and no varnish, dirt or intervention lies under it.")
            : new(Age.Undetermined, "There is no varnish, dirt or intervention to date it by.");
    }

    /// <summary>By name, of more than three the lowest two; null when there are none.</summary>
    private static string? Names(IEnumerable<StageGroup> groups)
    {
        var all = groups.ToList();
        return all.Count == 0 ? null : all.Count > 3 ? $"{BuildUpProse.List([.. all.Take(2).Select(g => BuildUpProse.Names([g])), $"{all.Count - 2} more"])}" : BuildUpProse.Names(all);
    }
}
