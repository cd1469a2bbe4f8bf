using Sandarac.Materials.Tables;

namespace Sandarac.Materials.Dating;

/// <summary>Which pigments the elements of a spectrum are consistent with.</summary>
public static class ElementRules
{
    /// <summary>Elements so light that air or the paint's surface takes most of their radiation: that one is not seen says nothing. Common practice, no source.</summary>
    private static readonly HashSet<string> Light = ["C", "N", "O", "Na", "Mg", "Al", "Si", "P", "S", "Cl"];

    private static readonly string[] Cautions =
    [
        "Elements are of all layers within reach, of mixtures, extenders, driers and dirt: one spectrum is consistent with several pigments and identifies none.",
        "Light elements (up to about chlorine) are weak or invisible in air; organic pigments and carbon show nothing: they are in no list and ruled out by none.",
        "A row marked MEMORY was recalled and is not verified.",
    ];

    /// <summary>Looks in the table. A candidate has each of its heavier elements in the spectrum; those that cannot be told neither speak for it nor rule it out, as long as another one does speak for it.</summary>
    /// <param name="seen">Symbols of the elements that are there.</param>
    /// <param name="untold">Symbols of those that cannot be told, hidden under others.</param>
    /// <param name="colour">Colour words of the place; null to leave colour out.</param>
    public static ConsistentWith<Pigment> Find(IReadOnlyCollection<string> seen, IReadOnlyCollection<string> untold, string? colour = null)
    {
        var hue = colour is null ? null : ColourWords.In(colour);
        return ConsistentWith<Pigment>.Of(Pigment.All.Where(p => hue is null || ColourWords.Agreement(hue, ColourWords.In(p.Hue)) > 0).Select(p => Matched(p, seen, untold)).OfType<Match<Pigment>>(), Cautions);
    }

    private static Match<Pigment>? Matched(Pigment pigment, IReadOnlyCollection<string> seen, IReadOnlyCollection<string> untold)
    {
        var there = pigment.Elements.Where(seen.Contains).ToList();
        var absent = pigment.Elements.Except(there).ToList();
        if (there.Count == 0 || absent.Any(e => !Light.Contains(e) && !untold.Contains(e))) return null;
        // Light elements alone, such as those of clay and chalk, are everywhere.
        if (there.All(Light.Contains) && absent.Count > 0) return null;
        var companions = pigment.Companions.Where(seen.Contains).ToList();
        List<string> reasons = [$"{string.Join(", ", there)} seen"];
        if (absent.Where(untold.Contains).ToList() is { Count: > 0 } hidden) reasons.Add($"{string.Join(", ", hidden)} cannot be told");
        if (absent.Except(untold).ToList() is { Count: > 0 } light) reasons.Add($"{string.Join(", ", light)} expected and not seen, which in air says nothing");
        if (companions.Count > 0) reasons.Add($"{string.Join(", ", companions)}, often with it, seen too");
        return new Match<Pigment>(pigment, there.Count / (double)pigment.Elements.Count, string.Join("; ", reasons));
    }
}
