using Sandarac.Materials.Safety;
using Sandarac.Materials.Solvents;
using Sandarac.Studio.Documents.Phrasing;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Documents;

/// <summary>The usual cautions for photographs whose making, and materials whose use, can hurt someone. Common practice, no single source; they defer to local rules.</summary>
public static class Cautions
{
    private static readonly (string[] Lights, Phrase Text)[] All = [(["UVL", "UVR"], Phrase.CautionUltraviolet), (["XR"], Phrase.CautionXrays)];

    /// <summary>Cautions for these lights, in a fixed order.</summary>
    /// <param name="lights">Codes.</param>
    /// <param name="phrases">The language; English by default.</param>
    public static IEnumerable<string> For(IEnumerable<string?> lights, Phrases? phrases = null)
    {
        var present = lights.ToHashSet();
        return All.Where(c => c.Lights.Any(present.Contains)).Select(c => (phrases ?? Phrases.English)[c.Text]);
    }

    /// <summary>What is known by its name of each agent that a log names; materials that were taken off are none.</summary>
    public static IReadOnlyList<Caution> Known(IEnumerable<LogMaterial> materials) => SafetyCautions.For(materials.Where(m => m.Use != MaterialUse.Removed).SelectMany(m => AgentNames.In(m.Name)).Where(n => SolventTable.Find(n) is not null).Distinct(StringComparer.OrdinalIgnoreCase));

    /// <summary>Cautions for what was worked with: the general one, then what must not meet and the hazards of each agent that is known, in English, as the tables have them.</summary>
    /// <param name="materials">What an entry, or a whole log, names.</param>
    /// <param name="phrases">The language.</param>
    public static IEnumerable<string> ForAgents(IEnumerable<LogMaterial> materials, Phrases phrases) => materials.ToList() is var all && all.Any(m => m.Use != MaterialUse.Removed) ? [phrases[Phrase.CautionAgents], .. Told(Known(all))] : [];

    private static IEnumerable<string> Told(IReadOnlyList<Caution> cautions) =>
        cautions.Where(c => c.Code == "incompatible").Select(c => $"{c.Subject}: {c.Text} ({c.Source})")
            .Concat(cautions.Where(c => c.Code is "hazard" or "flash-point").GroupBy(c => c.Subject).Select(g => $"{g.Key}: {string.Join(' ', g.Select(c => c.Text))} ({string.Join("; ", g.Select(c => c.Source).Distinct())})"));
}
