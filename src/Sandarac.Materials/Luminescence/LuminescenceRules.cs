using Sandarac.Materials.Tables;

namespace Sandarac.Materials.Luminescence;

/// <summary>Which materials a zone's colour of luminescence is consistent with.</summary>
public static class LuminescenceRules
{
    /// <summary>Rows that say what hides or feigns luminescence: they caution about every zone and are no candidates.</summary>
    private static readonly string[] Hiding = ["surface dirt", "old retouching", "synthetic resins", "UV-absorbing varnish", "glazing"];

    /// <summary>What the table says that luminescence does not show, each with its flag and source.</summary>
    public static IReadOnlyList<string> Cautions { get; } =
        [.. LuminescenceAppearance.All.Where(IsCaution).Select(Caution), "Consistent with is not identified: only analysis of the material can name it."];

    /// <summary>Looks in the table.</summary>
    /// <param name="colour">Name of the zone's colour of luminescence: "light weak yellow".</param>
    /// <param name="dark">Whether the zone luminesces far less than its surroundings: then rows that say dark or none are looked for, whatever the colour.</param>
    public static ConsistentWith<LuminescenceAppearance> Find(string colour, bool dark)
    {
        var seen = ColourWords.In(colour);
        return ConsistentWith<LuminescenceAppearance>.Of(LuminescenceAppearance.All.Where(r => !IsResult(r)).Select(row => Matched(row, seen, dark)).OfType<Match<LuminescenceAppearance>>(), Cautions);

        // Synthetic resins both caution and are a candidate: a coat that does not glow.
        static bool IsResult(LuminescenceAppearance row) => IsCaution(row) && !row.Material.StartsWith("synthetic resins", StringComparison.Ordinal);
    }

    private static bool IsCaution(LuminescenceAppearance row) => Hiding.Any(h => row.Material.StartsWith(h, StringComparison.Ordinal));

    private static Match<LuminescenceAppearance>? Matched(LuminescenceAppearance row, IReadOnlySet<string> seen, bool dark)
    {
        var says = SaysDark(row.Appearance);
        if (dark) return says ? new Match<LuminescenceAppearance>(row, 1, $"usually {row.Appearance}") : null;
        var agreement = ColourWords.Agreement(seen, ColourWords.In(row.Appearance));
        return agreement == 0 ? null : new Match<LuminescenceAppearance>(row, agreement / (says ? 4.0 : 2.0), $"usually {row.Appearance}");
    }

    private static bool SaysDark(string appearance) => ((string[])["dark", "none", "no visible", "missing"]).Any(w => appearance.Contains(w, StringComparison.Ordinal));

    private static string Caution(LuminescenceAppearance row) =>
        $"{row.Material}: {row.Appearance}{(row.Note.Length > 0 ? $" ({row.Note})" : "")}. {row.Flag}{(row.Source.Length > 0 ? $", {row.Source}" : "")}.";
}
