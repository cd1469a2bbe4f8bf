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

    /// <summary>Cautions for what was worked with. The one place that is asked of agents that a log names: what is known of each by its name is added here.</summary>
    /// <param name="materials">What an entry, or a whole log, names.</param>
    /// <param name="phrases">The language.</param>
    public static IEnumerable<string> ForAgents(IEnumerable<LogMaterial> materials, Phrases phrases) => materials.Any(m => m.Use != MaterialUse.Removed) ? [phrases[Phrase.CautionAgents]] : [];
}
